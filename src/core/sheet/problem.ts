import type { Place } from './sheet.ts';

export type Severity = 'error' | 'warning' | 'information';

/** Something wrong or doubtful in a sheet, or in a plan made of it: where it is, what it is, how it is mended. */
export interface Problem {
  readonly code: ProblemCode;
  readonly severity: Severity;
  readonly line: number;
  readonly column: number;
  readonly message: string;
  /** What to write or do instead. */
  readonly mend: string;
}

interface Kind {
  readonly severity: Severity;
  /** `check` reads the sheet alone, at its nominal size; `plan` adds scales, stock and today's size. */
  readonly finder: 'check' | 'plan';
  readonly means: string;
}

const error = (finder: Kind['finder'], means: string): Kind => ({
  severity: 'error',
  finder,
  means,
});
const warning = (finder: Kind['finder'], means: string): Kind => ({
  severity: 'warning',
  finder,
  means,
});

/** The closed table of everything that a sheet or a plan can be told. */
export const problemTable = {
  'not-text': error(
    'check',
    'the file is not UTF-8 text, or too large or too deeply nested to be a sheet',
  ),
  'not-yaml': error('check', 'the file breaks a rule of YAML'),
  'control-character': error('check', 'a character that no sheet needs and a terminal may obey'),
  'alias-or-tag': error('check', 'an alias, anchor or tag: a sheet is plain data'),
  'repeated-key': error('check', 'the same key twice'),
  'unknown-key': error('check', 'a key that no sheet has'),
  'missing-key': error('check', 'a key that must be there'),
  'no-value': error('check', 'a key without a value'),
  'wrong-shape': error(
    'check',
    'a list where text belongs, text where a list belongs, and the like',
  ),
  'bad-number': error('check', 'text where a number belongs'),
  'decimal-comma': error('check', 'a comma in a number'),
  'bad-amount': error('check', 'text where a number with a unit belongs'),
  'unknown-unit': error('check', 'a unit that no sheet has, or of the wrong sort here'),
  'out-of-range': error('check', 'a number that cannot be: a loss of 100 %, a count of 0'),
  'bad-code': error('check', 'a code that cannot number batches'),
  'bad-tolerance': error('check', 'a tolerance that cannot be read'),
  'reserved-measure': error(
    'check',
    'a measure of the sheet that redefines a built-in unit, or cannot be read as one',
  ),
  'not-a-choice': error('check', 'a word where one of a few others belongs'),
  'no-step-kind': error('check', 'a step that is none of add, do, hold and so on, or two at once'),
  'repeated-name': error('check', 'two phases, or two named steps, with the same name'),
  'undeclared-material': error('check', 'a material that is not under materials'),
  'unused-material': error('check', 'a material that is declared and never used'),
  'undeclared-phase': error('check', 'a phase that the sheet does not have'),
  'undeclared-vessel': error('check', 'a vessel that no phase has'),
  'vessel-differs': error('check', 'one vessel with two tares, or that holds two amounts'),
  'undeclared-step': error('check', 'a deadline from a step that has no such name, or comes later'),
  'closed-vessel': error('check', 'an addition to a vessel that an earlier step emptied'),
  'tipped-into-itself': error('check', 'a vessel tipped into the same vessel'),
  'phases-in-a-ring': error('check', 'phases that wait for each other'),
  'mixed-amounts': error('check', 'percentages and absolute amounts in one sheet'),
  'percent-sum': error('check', 'percentages or shares that do not add up to 100 %'),
  'rest-twice': error('check', 'two lines of a phase that both take the rest'),
  'no-density': error(
    'check',
    'a volume, a drop or a count of a material that does not say what it weighs',
  ),
  'no-tolerance': error('check', 'an addition without any tolerance'),
  'no-additions': error('check', 'a sheet in which nothing is weighed'),
  'hold-backwards': error('check', 'a hold or a limit whose most is under its least'),
  'limit-broken': error('check', 'a limit that the formula itself breaks'),
  'makes-differs': warning('check', 'an absolute sheet whose total and whose makes disagree'),
  'window-narrow': warning('plan', 'a window of two to four scale divisions'),
  'window-too-narrow': error('plan', 'a window of less than two scale divisions'),
  'window-reaches-zero': error('plan', 'a window that reaches down to nothing'),
  'no-scale': error('plan', 'an addition that no scale can weigh'),
  'several-weighings': warning('plan', 'an addition over the capacity of its scale'),
  'under-least-load': warning('plan', 'a target under the least load of its scale'),
  'window-unclaimable': {
    severity: 'information',
    finder: 'plan',
    means: 'a window that the uncertainty of its scale fills up',
  },
  // An error where the sheet or the workshop says refuse.
  'scale-unchecked': warning('plan', 'a scale without a good check in the time that is asked for'),
  'vessel-overflows': error('plan', 'more in a vessel than it holds'),
  'stock-short': error('plan', 'stock that does not suffice'),
  'no-whole-piece': error('plan', 'a batch too small for a single piece'),
  'scales-assumed': {
    severity: 'information',
    finder: 'plan',
    means: 'no scale entered yet, two are assumed',
  },
  'not-walked-yet': error('plan', 'a part of a sheet that this version reads but cannot walk yet'),
} as const satisfies Record<string, Kind>;

export type ProblemCode = keyof typeof problemTable;

/** Makes a problem of the table's severity. */
export const problem = (
  code: ProblemCode,
  place: Place,
  message: string,
  mend: string,
): Problem => ({
  code,
  severity: problemTable[code].severity,
  line: place.line,
  column: place.column,
  message,
  mend,
});

export const hasErrors = (problems: readonly Problem[]): boolean =>
  problems.some(each => each.severity === 'error');

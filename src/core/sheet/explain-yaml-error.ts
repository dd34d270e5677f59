import { type Problem, type ProblemCode, problem } from './problem.ts';
import type { Place } from './sheet.ts';

interface Explanation {
  readonly code: ProblemCode;
  readonly message: string;
  readonly mend: string;
}

const notYaml = (message: string, mend: string): Explanation => ({
  code: 'not-yaml',
  message,
  mend,
});

/** What is said of an anchor, an alias or a tag. */
export const plainDataOnly: Explanation = {
  code: 'alias-or-tag',
  message:
    'A value that begins with &, * or ! has a meaning of its own, which a sheet does not use.',
  mend: 'Put the text in quotes, or write out what is meant.',
};

const colonInText = notYaml(
  'A colon followed by a blank starts a value, and this line has more than one, or lines up wrongly.',
  'Put the text in quotes, or line the keys up under each other.',
);
const indentation = notYaml(
  'The line is not indented like its neighbours, or a bracket is not closed.',
  'Line it up with the lines that belong with it, and close every { and [.',
);

const explanations: ReadonlyMap<string, Explanation> = new Map([
  ['ALIAS_PROPS', plainDataOnly],
  ['BAD_ALIAS', plainDataOnly],
  ['BAD_COLLECTION_TYPE', plainDataOnly],
  ['MULTIPLE_ANCHORS', plainDataOnly],
  ['MULTIPLE_TAGS', plainDataOnly],
  ['TAG_RESOLVE_FAILED', plainDataOnly],
  ['BAD_INDENT', indentation],
  ['BLOCK_AS_IMPLICIT_KEY', colonInText],
  ['MULTILINE_IMPLICIT_KEY', colonInText],
  [
    'MISSING_CHAR',
    notYaml(
      'Something is missing here: a colon after a key, a comma between two items, or a closing quote.',
      'Write `key: value` on a line of its own, and close every quote.',
    ),
  ],
  ['TAB_AS_INDENT', notYaml('A tab indents this line.', 'Indent with blanks only.')],
  [
    'BAD_SCALAR_START',
    notYaml('No value may begin with this character.', 'Put the text in quotes.'),
  ],
  ['MULTIPLE_DOCS', notYaml('A line of --- starts a second sheet.', 'Keep one sheet in a file.')],
  [
    'BAD_DIRECTIVE',
    notYaml('A line that begins with % is no part of a sheet.', 'Delete the line.'),
  ],
  [
    'BAD_DQ_ESCAPE',
    notYaml('A backslash inside double quotes has a meaning of its own.', 'Use single quotes.'),
  ],
  ['NON_STRING_KEY', notYaml('A key must be plain words.', 'Write `key: value`.')],
]);

const other = notYaml(
  'The line cannot be read: a character stands where YAML does not expect it.',
  'Put text with signs in quotes, and check the commas, brackets and blanks of this line.',
);

/** Says a complaint of the YAML library, known by its code, in a maker's words. */
export const explainYamlError = (fault: { readonly code: string }, place: Place): Problem => {
  const { code, message, mend } = explanations.get(fault.code) ?? other;
  return problem(code, place, message, mend);
};

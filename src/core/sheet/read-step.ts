import { type DraftOf, keyed, kinded, optional, required } from './keys.ts';
import { nearest } from './nearest.ts';
import { isEmpty, type MapNode } from './node.ts';
import { quote, quoteAll } from './quote.ts';
import { absoluteAmount, amount } from './read-amount.ts';
import { plainNumber, whole } from './read-number.ts';
import { deadline, holdTime } from './read-time.ts';
import { tolerance } from './read-tolerance.ts';
import { choice, faultAt, oneOrMore, placed, type Reader, type Report, words } from './reader.ts';

const common = {
  name: optional(placed(words('wetting')), 'By which a later deadline names this step.'),
  within: optional(
    placed(deadline('15 min of wetting')),
    'At the latest so long after a named step.',
  ),
  witness: optional(choice(['yes', 'no']), 'Whether a second person confirms the step.'),
};

const counts = keyed({
  weigh: optional(whole('5', 0, 1000), 'How many pieces are weighed one by one.'),
});
const tallyCounts: typeof counts = {
  example: '{weigh: 5}',
  schema: { anyOf: [counts.schema, { type: 'null' }] },
  mayBeEmpty: true,
  read: (node, report) =>
    counts.read(
      isEmpty(node) ? { kind: 'map', entries: [], isInBraces: false, place: node.place } : node,
      report,
    ),
};

const addStep = kinded('add', {
  add: required(placed(words('bicarbonate')), 'Weighs a material in.'),
  amount: required(placed(amount('12 %')), 'A share of the phase, rest, or an absolute amount.'),
  tolerance: optional(tolerance('1 %'), 'Of the target, where it is not that of the sheet.'),
  ...common,
});

const wearStep = kinded('wear', {
  wear: required(oneOrMore(words('goggles')), 'What to put on.'),
  ...common,
});

const readyStep = kinded('ready', {
  ready: required(oneOrMore(words('bowl clean')), 'What to make sure of first.'),
  ...common,
});

const doStep = kinded('do', {
  do: required(words('Stir.'), 'What to do.'),
  empties: optional(placed(words('bowl')), 'The vessel that is empty after it.'),
  ...common,
});

const measureStep = kinded('measure', {
  measure: required(words('humidity'), 'What to measure.'),
  unit: required(words('"%"'), 'The unit of the reading, in quotes where it is a sign.'),
  least: optional(plainNumber('20'), 'The least good reading.'),
  most: optional(plainNumber('50'), 'The greatest good reading.'),
  ...common,
});

const adjustStep = kinded('adjust', {
  adjust: required(placed(words('water')), 'Adds a little until it is right, outside the 100 %.'),
  by: optional(placed(absoluteAmount('1 mL')), 'About how much at a time.'),
  most: required(placed(absoluteAmount('12 mL')), 'The most of it in the sheet’s own batch.'),
  until: required(words('it holds together'), 'How to know that it is right.'),
  ...common,
});

const holdStep = kinded('hold', {
  hold: required(holdTime('10 min to 30 min'), 'How long to wait: the least, and the most.'),
  for: required(words('Rest, covered.'), 'What the wait is for.'),
  ...common,
});

const tipStep = kinded('tip', {
  tip: required(placed(words('jug')), 'The vessel that is tipped out.'),
  into: required(placed(words('pan')), 'The vessel that takes it.'),
  ...common,
});

const tallyStep = kinded('tally', {
  tally: required(tallyCounts, 'Counts and weighs what came out.'),
  ...common,
});

export type DraftAdd = DraftOf<typeof addStep>;
export type DraftAdjust = DraftOf<typeof adjustStep>;
export type DraftStep =
  | DraftAdd
  | DraftAdjust
  | DraftOf<typeof wearStep>
  | DraftOf<typeof readyStep>
  | DraftOf<typeof doStep>
  | DraftOf<typeof measureStep>
  | DraftOf<typeof holdStep>
  | DraftOf<typeof tipStep>
  | DraftOf<typeof tallyStep>;

const kinds: ReadonlyMap<string, Reader<DraftStep>> = new Map<string, Reader<DraftStep>>([
  ['add', addStep],
  ['wear', wearStep],
  ['ready', readyStep],
  ['do', doStep],
  ['measure', measureStep],
  ['adjust', adjustStep],
  ['hold', holdStep],
  ['tip', tipStep],
  ['tally', tallyStep],
]);

const readOfKind = (node: MapNode, report: Report): DraftStep | undefined => {
  const [first, second] = node.entries.filter(entry => kinds.has(entry.key));
  if (second !== undefined) {
    const message = `This step is both ${quote(first?.key ?? '')} and ${quote(second.key)}.`;
    const mend = 'Start a step of its own: put “- ” (a dash and a blank) before it.';
    return faultAt(second.place, report)('no-step-kind', message, mend);
  }
  // A kind that is misspelt is told by the reader of the right one.
  const kind =
    first?.key ?? node.entries.map(entry => nearest(entry.key, kinds.keys())).find(Boolean);
  const reader = kinds.get(kind ?? '');
  if (reader !== undefined) return reader.read(node, report);
  const mend = `Begin the step with one of ${quoteAll(kinds.keys())}.`;
  return faultAt(node.place, report)('no-step-kind', 'Nothing says what is done here.', mend);
};

/** One step: the key that it begins with says its kind. */
export const step: Reader<DraftStep> = {
  example: addStep.example,
  schema: { anyOf: [...kinds.values()].map(kind => kind.schema) },
  read: (node, report) => {
    if (node.kind === 'map') return readOfKind(node, report);
    const mend = 'Write the kind of step and its value, such as do: Stir.';
    return faultAt(node.place, report)('wrong-shape', 'A step belongs here.', mend);
  },
};

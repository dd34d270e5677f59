import { toExact } from '../quantity/decimal.ts';
import {
  add,
  isMore,
  isPositive,
  isZero,
  one,
  type Ratio,
  ratio,
  subtract,
  sum,
  times,
  zero,
} from '../quantity/quantity.ts';
import { quote } from './quote.ts';
import type { DraftPhase } from './read-phase.ts';
import type { DraftAdd } from './read-step.ts';
import { faultAt, type Placed, type Report } from './reader.ts';
import { measuresOf } from './resolve-amounts.ts';
import type { Sheet } from './sheet.ts';
import type { DraftSheet } from './sheet-reader.ts';
import { additionsOf, isThere, phasesOf } from './walk.ts';
import { isInUnits } from './weigh.ts';

const percent = (share: Ratio): string => `${toExact(times(share, ratio(100n)))} %`;

// An amount in a unit that does not exist may have been meant either way.
const basisOf = ({ amount }: DraftAdd, draft: DraftSheet): Sheet['basis'] | undefined => {
  if (amount?.value.kind !== 'sum') return amount && 'percentages';
  return isInUnits(amount.value, measuresOf(draft)) ? 'absolute' : undefined;
};

/** The basis of the first line whose amount tells one, which all lines must share; undefined where none tells. */
export const checkBasis = (draft: DraftSheet, report: Report): Sheet['basis'] | undefined => {
  const lines = phasesOf(draft).flatMap(additionsOf);
  const bases = lines.map(step => basisOf(step, draft));
  const basis = bases.find(isThere);
  const shares = phasesOf(draft).flatMap(phase => phase.share ?? []);
  const isOdd = (at: number): boolean => bases[at] !== undefined && bases[at] !== basis;
  const amounts = lines.flatMap((step, at) => (isOdd(at) ? (step.amount ?? []) : []));
  const odd: readonly Placed<unknown>[] = basis === 'absolute' ? [...amounts, ...shares] : amounts;
  for (const { place } of odd) {
    faultAt(place, report)(
      'mixed-amounts',
      basis === 'absolute'
        ? 'This is a percentage, and the first amount of the sheet is not.'
        : 'This is no percentage, and the first amount of the sheet is one.',
      basis === 'absolute'
        ? 'Write an absolute amount, such as 120 g; a phase has no share then.'
        : 'Write a percentage of the phase, such as 12 %.',
    );
  }
  return odd.length === 0 ? basis : undefined;
};

interface Part {
  readonly name: string;
  readonly share: Ratio;
}

// The largest part takes the difference most easily, so it is the one that the mend names.
const mendSum = (parts: readonly Part[], key: string, difference: Ratio): string => {
  const largest = parts.reduce((a, b) => (isMore(b.share, a.share) ? b : a), {
    name: '',
    share: zero,
  });
  const right = add(largest.share, difference);
  return isPositive(right)
    ? `Write for example ${key}: ${percent(right)} for ${quote(largest.name)}.`
    : 'Lower them to 100 % in all.';
};

const checkSum = (
  what: string,
  key: string,
  parts: readonly Part[],
  place: DraftPhase['place'],
  report: Report,
): boolean => {
  const total = sum(
    zero,
    parts.map(part => part.share),
  );
  const difference = subtract(one, total);
  if (isZero(difference)) return true;
  const size = percent(isPositive(difference) ? difference : subtract(total, one));
  const message = `${what} add up to ${percent(total)}, ${size} too ${isPositive(difference) ? 'little' : 'much'}.`;
  faultAt(place, report)('percent-sum', message, mendSum(parts, key, difference));
  return false;
};

const checkRest = (phase: DraftPhase, rest: readonly DraftAdd[], left: Ratio, report: Report) => {
  const [first, second] = rest;
  if (second !== undefined) {
    const message = 'Another line of this phase takes the rest already.';
    const mend = 'Write a percentage here, such as 5 %.';
    faultAt(second.amount?.place ?? second.place, report)('rest-twice', message, mend);
    return false;
  }
  if (isPositive(left)) return true;
  const message = `The other lines of ${quote(phase.phase?.value ?? '')} leave no rest.`;
  const mend = 'Lower their percentages to less than 100 % in all.';
  faultAt(first?.amount?.place ?? phase.place, report)('percent-sum', message, mend);
  return false;
};

const checkLines = (phase: DraftPhase, report: Report): boolean => {
  const lines = additionsOf(phase);
  const rest = lines.filter(step => step.amount?.value.kind === 'rest');
  const parts = lines.flatMap(({ add: key, amount }) =>
    amount?.value.kind === 'share' ? [{ name: key?.value ?? '', share: amount.value.share }] : [],
  );
  if (lines.length === 0) return true;
  // A line that could not be read may be what is missing.
  if (parts.length + rest.length < lines.length || phase.steps?.every(isThere) !== true)
    return false;
  if (rest.length > 0) {
    const left = subtract(
      one,
      sum(
        zero,
        parts.map(part => part.share),
      ),
    );
    return checkRest(phase, rest, left, report);
  }
  const what = `The lines of ${quote(phase.phase?.value ?? '')}`;
  return checkSum(what, 'amount', parts, phase.place, report);
};

const checkMissing = (phases: readonly DraftPhase[], report: Report): boolean => {
  const without = phases.filter(phase => !phase.has.has('share'));
  if (without.length === 0 || phases.length === 1) return true;
  const given = phases.flatMap(phase => phase.share?.value ?? []);
  const left = subtract(one, sum(zero, given));
  const example = without.length === 1 && isPositive(left) ? percent(left) : '15 %';
  for (const phase of without) {
    const message = 'This phase does not say which share of the batch it is.';
    faultAt(phase.place, report)('missing-key', message, `Add share: ${example}`);
  }
  return false;
};

const checkPhaseShares = (draft: DraftSheet, report: Report): boolean => {
  const phases = phasesOf(draft);
  const empty = phases.filter(phase => additionsOf(phase).length === 0 && phase.share);
  for (const { share, place } of empty) {
    const message = 'This phase has a share, and nothing is added in it.';
    faultAt(share?.place ?? place, report)('percent-sum', message, 'Delete the line with share.');
  }
  const weighed = phases.filter(phase => additionsOf(phase).length > 0);
  if (empty.length > 0 || !checkMissing(weighed, report)) return false;
  const parts = weighed.flatMap(({ phase, share }) =>
    share === undefined ? [] : [{ name: phase?.value ?? '', share: share.value }],
  );
  if (parts.length === 0) return true;
  if (parts.length < weighed.length) return false;
  const place = weighed[0]?.share?.place ?? draft.place;
  return checkSum('The shares of the phases', 'share', parts, place, report);
};

/** Whether percentages and shares add up to 100 % exactly; false too where that cannot be known. */
export const checkShares = (draft: DraftSheet, report: Report): boolean => {
  const areLines = phasesOf(draft).map(phase => checkLines(phase, report));
  return checkPhaseShares(draft, report) && areLines.every(Boolean);
};

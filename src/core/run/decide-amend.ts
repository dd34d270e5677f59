/** Putting a mistyped reading right. */

import { verdictOf } from '../plan/window.ts';
import { toExact } from '../quantity/decimal.ts';
import { add, isNegative, isZero, type Mass, subtract } from '../quantity/quantity.ts';
import { type Decision, follow, readReason, reasonMissing, refuse } from './decision.ts';
import type { Judged } from './event.ts';
import { isClosed } from './evolve-amended.ts';
import { vesselNow } from './focus.ts';
import type { Intent } from './intent.ts';
import { judge } from './judge.ts';
import { type Poured, pouredInto, readTyped } from './poured.ts';
import { changeBy, type Standing, standingReadings, whereaboutsOf } from './standing-reading.ts';
import type { OpenRun, Pour } from './state.ts';

const notAmendable = (message: string): Decision & { ok: false } =>
  refuse('not-amendable', message, 'Write it down with note.');

const isPresent = ({ state }: Standing, pour: Pour): boolean => state.pours.at(-1) === pour;

/** Why a reading that still counts cannot be put right; undefined where it can. */
const hindrance = (run: OpenRun, standing: Standing): string | undefined => {
  const { step, pour } = standing;
  if (pour === undefined) return undefined;
  if (!isZero(pour.waste)) return 'What was taken back cannot be amended in this version.';
  if (whereaboutsOf(run, step, pour).isInGross)
    return 'The vessel was read gross since, and that reading counted on this one.';
  const parts = pouredInto(run, step)?.addition.parts;
  return parts === undefined || isPresent(standing, pour)
    ? undefined
    : 'An earlier one of several weighings cannot be amended in this version.';
};

/** The readings that can be put right, the latest first. */
export const amendableReadings = (run: OpenRun): readonly Standing[] =>
  standingReadings(run)
    .filter(each => hindrance(run, each) === undefined)
    .toSorted((a, b) => b.reading.seq - a.reading.seq);

/** The net of that pour, and how all pours together lie; of several weighings the present one by itself. */
const judgeAmended = ({ addition, state }: Poured, pour: Pour, net: Mass): Judged => {
  if (state.pours.at(-1) === pour) return judge(addition, state, net);
  const total = add(subtract(state.total, pour.net), net);
  return {
    net: toExact(net),
    total: toExact(total),
    verdict: verdictOf(total, addition.window),
  };
};

const findStanding = (run: OpenRun, wanted: number) => {
  const standing = standingReadings(run).find(({ reading }) => reading.seq === wanted);
  const poured = standing && pouredInto(run, standing.step);
  if (standing === undefined || poured === undefined) {
    return refuse(
      'not-amendable',
      `Number ${wanted} is no reading that counts.`,
      'Type amend alone: it lists those that do, with their numbers.',
    );
  }
  const why = hindrance(run, standing);
  return why === undefined ? { standing, poured } : notAmendable(why);
};

// What is poured for a line that was done comes after a new tare, unless it is in hand as it was.
const taredAfter = (run: OpenRun, { step, state, reading }: Standing, judged: Judged) => {
  const vessel = run.plan.steps[step - 1]?.addition?.vessel ?? '';
  const isInHand =
    state.lastReading?.seq === reading.seq &&
    run.vessels.get(vesselNow(run, vessel))?.lastStep === step;
  return state.status === 'done' && judged.verdict !== 'in' && !isInHand && !isClosed(run, step)
    ? [{ type: 'tared', step } as const]
    : [];
};

/** Any reading that still counts, of any addition, as long as no later number was worked out with it. */
export const amend = (
  run: OpenRun,
  { seq, typed, reason }: Intent & { readonly type: 'amend' },
): Decision => {
  const found = findStanding(run, seq);
  if (!('standing' in found)) return found;
  const { standing, poured } = found;
  const number = readTyped(typed, poured.scale);
  if (!('value' in number)) return number;
  const given = readReason(reason);
  if (given === undefined) return reasonMissing();
  const { mass: shown, typed: reading } = number.value;
  const { pour, step } = standing;
  const net = pour && add(pour.net, changeBy(standing.reading, shown));
  if (isNegative(shown) || (net !== undefined && isNegative(net)))
    return refuse(
      'negative-net',
      'That would be less than nothing.',
      'Type what the scale showed.',
    );
  const base = { type: 'amended', step, amends: seq, reading, reason: given } as const;
  if (pour === undefined || net === undefined) return follow(base);
  const judged = judgeAmended(poured, pour, net);
  return follow({ ...base, judged }, ...taredAfter(run, standing, judged));
};

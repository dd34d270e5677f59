/** What a line that was poured, or not yet, still takes when the batch gets bigger. */
import {
  add,
  dividedBy,
  isLess,
  isMore,
  isPositive,
  isZero,
  larger,
  type Mass,
  noMass,
  one,
  type Ratio,
  ratio,
  ratioOf,
  smaller,
  subtract,
  times,
} from '../../../../core/quantity/quantity.ts';
import { inDivisions } from '../choose-again.ts';
import type { Line } from '../plan-again.ts';
import { sideAgain, windowAgain } from '../window-again.ts';
import type { Place } from './places.ts';

export interface PourLine extends Pick<Line, 'n' | 'phase' | 'material' | 'exact' | 'tolerance'> {
  readonly place: Place;
  readonly net: Mass;
  /** `poured` once it is done or over; `accepted` where a person lives with what is in. */
  readonly state: 'open' | 'poured' | 'accepted';
  readonly canTakeBack: boolean;
  /** A division of the scale that weighs it. */
  readonly division: Mass;
  /** The least that it weighs, in divisions: one at least. */
  readonly leastDivisions: bigint;
  readonly capacity: Mass;
}

export const massOfDivisions = ({ division }: PourLine, count: bigint): Mass =>
  times(division, ratio(count));

export const windowAt = ({ tolerance, exact }: PourLine, stretch: Ratio) =>
  windowAgain(tolerance, times(exact, stretch));

/** Over its window at the present size, and nobody lives with it. */
export const isOver = (line: PourLine): boolean =>
  line.state !== 'accepted' && isMore(line.net, windowAt(line, one).high);

const isUntouched = ({ state, net }: PourLine): boolean => state === 'open' && isZero(net);

const staysAsItIs = ({ place, state }: PourLine, stretch: Ratio): boolean =>
  place.isClosed || (state === 'accepted' && !isMore(stretch, one));

/** Divisions to pour: nearest to what is missing, ties to even, among those that a person can pour and that end in the window. */
export const divisionsAt = (line: PourLine, stretch: Ratio): bigint => {
  const { low, high } = windowAt(line, stretch);
  const isShort = isLess(line.net, low) || isUntouched(line);
  if (!isShort || staysAsItIs(line, stretch)) return 0n;
  const upTo = (mass: Mass): Mass => subtract(mass, line.net);
  const toLow = inDivisions(upTo(low), line.division, 'up');
  const least = toLow > line.leastDivisions ? toLow : line.leastDivisions;
  const most = inDivisions(upTo(high), line.division, 'down');
  const wanted = inDivisions(upTo(times(line.exact, stretch)), line.division, 'half-even');
  if (wanted <= least || most <= least) return least;
  return wanted < most ? wanted : most;
};

/** The least stretch at which the window reaches up to a mass. */
export const whereItReaches = ({ exact, tolerance }: PourLine, mass: Mass): Ratio => {
  const { share, mass: room } = sideAgain(tolerance.over, tolerance);
  return smaller(
    ratioOf<'g'>(mass, times(exact, add(one, share))),
    ratioOf<'g'>(subtract(mass, room), exact),
  );
};

/** The greatest stretch at which what is in is not under the window; undefined where it never gets under. */
const whereItStays = ({ exact, tolerance, net }: PourLine): Ratio | undefined => {
  const { share, mass: room } = sideAgain(tolerance.under, tolerance);
  const rest = subtract(one, share);
  if (!isPositive(rest)) return undefined;
  return larger(dividedBy(ratioOf<'g'>(net, exact), rest), ratioOf<'g'>(add(net, room), exact));
};

/** Stretches that will not do, both ends left out. */
export interface Blocked {
  readonly after: Ratio;
  readonly until: Ratio;
}

const never = ratio(-1n);

/**
 * The one interval of stretches at which a line needs more and has no room for a pour of two divisions
 * above the least; for the first pour, none for the least itself. Windows of a plan hold two divisions
 * at least, so that a multiple of the division always lies in them.
 */
export const blockedFor = (line: PourLine): Blocked | undefined => {
  if (line.place.isClosed) return undefined;
  const stays = isUntouched(line) ? never : whereItStays(line);
  if (stays === undefined) return undefined;
  const after = line.state === 'accepted' ? larger(stays, one) : stays;
  const room = isZero(line.net) ? line.leastDivisions : line.leastDivisions + 2n;
  const until = whereItReaches(line, add(line.net, massOfDivisions(line, room)));
  return isLess(after, until) ? { after, until } : undefined;
};

export const isBlockedAt = (line: PourLine, stretch: Ratio): boolean => {
  const blocked = blockedFor(line);
  return blocked !== undefined && isLess(blocked.after, stretch) && isLess(stretch, blocked.until);
};

/** The line with what the sheet would have had poured in. */
export const asTheSheetHasIt = (line: PourLine): PourLine => {
  const empty: PourLine = {
    ...line,
    net: noMass,
    state: 'open',
    place: { ...line.place, isClosed: false },
  };
  return { ...empty, net: massOfDivisions(line, divisionsAt(empty, one)) };
};

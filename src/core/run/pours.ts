/** The pours of an addition: one ends with a tare or with another lot. */
import { isZero, noMass, sum } from '../quantity/quantity.ts';
import type { AdditionState, Pour } from './state.ts';

export const emptyPour = (lot: string | undefined): Pour => ({
  readings: [],
  readAt: 0,
  net: noMass,
  waste: noMass,
  ...(lot === undefined ? {} : { lot }),
});

/** The state without what only concerned the pour that is over. */
export const betweenPours = (state: AdditionState): AdditionState => {
  const { before: _before, cup: _cup, partVerdict: _part, ...rest } = state;
  return rest;
};

/** Whether the weighing in hand, of several, has come to its part. */
export const isPartDone = ({ partVerdict }: Pick<AdditionState, 'partVerdict'>): boolean =>
  partVerdict !== undefined && partVerdict !== 'under';

// A lot that is named before anything was poured from the one before it takes that one's place.
const withPour = (pours: readonly Pour[], lot: string | undefined): readonly Pour[] => {
  const last = pours.at(-1);
  const isUnused = last !== undefined && isZero(last.net) && isZero(last.waste);
  return [...(isUnused ? pours.slice(0, -1) : pours), emptyPour(lot)];
};

/** The state with a new pour; it begins the next of several weighings where the one in hand has come to its part. */
export const withNewPour = (state: AdditionState, lot: string | undefined): AdditionState => {
  const pours = withPour(state.pours, lot);
  const next = isPartDone(state)
    ? { partsDone: state.partsDone + 1, partFrom: pours.length - 1 }
    : {};
  return { ...betweenPours(state), pours, ...next };
};

/** The state with other pours, and the total that they come to. */
export const withPours = (state: AdditionState, pours: readonly Pour[]): AdditionState => ({
  ...state,
  pours,
  total: sum(
    noMass,
    pours.map(pour => pour.net),
  ),
});

/** Whether the net of the pour is known by that reading. */
export const isReadInto = ({ readings }: Pour, seq: number): boolean =>
  readings.some(reading => reading.seq === seq);

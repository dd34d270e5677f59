/** The least stretch as a mixed-integer programme in CPLEX LP text; masses in divisions of each line's scale. */
import type { Side } from './as-program.ts';
import { by, type Fraction, over } from './fraction.ts';
import { leastOf } from './remedy-apart.ts';
import type { Scene, SceneLine } from './remedy-scene.ts';

/** No stretch of a scene goes as far. */
export const largest = 6;

const decimal = ([num, den]: Fraction): number =>
  Number(num / den) + Number(num % den) / Number(den);

interface Bound {
  /** Grows with the stretch. */
  readonly grows: number;
  readonly stays: number;
}

/** A side of the window as the larger of two: what grows with the stretch, and what stays. */
const boundsOf = ({ kind, value }: Side, { target, floor, d }: SceneLine): Bound => {
  const inDivisions = (mass: Fraction): number => decimal(over(mass, d));
  const least = floor === undefined || value[0] === 0n ? 0 : inDivisions(floor);
  return kind === 'share'
    ? { grows: inDivisions(by(value, target)), stays: least }
    : { grows: 0, stays: Math.max(inDivisions(value), least) };
};

interface Rows {
  readonly rows: string[];
  readonly binaries: string[];
  readonly integers: string[];
}

/**
 * Rows that hold `left` within one end of a window: t·s + max(grows·s, stays) above, or with the signs
 * turned below. Of the two parts of the max a binary chooses the one that is kept to.
 */
const within = (
  left: readonly string[],
  target: number,
  { grows, stays }: Bound,
  end: { readonly name: string; readonly sign: 1 | -1 },
  { rows, binaries }: Rows,
): void => {
  const { name, sign } = end;
  const relation = sign === 1 ? '<=' : '>=';
  const growing = target + sign * grows;
  const isOnlyGrowing = stays === 0;
  const isOnlyStaying = grows === 0;
  const slack = Math.max(grows * largest, stays) + 1;
  const isEither = !isOnlyGrowing && !isOnlyStaying;
  if (isEither) binaries.push(name);
  for (const each of left) {
    if (!isOnlyStaying || isOnlyGrowing) {
      const free = isEither ? ` ${sign === 1 ? '-' : '+'} ${slack} ${name}` : '';
      rows.push(`${each} - ${growing} s${free} ${relation} 0`);
    }
    if (!isOnlyGrowing) {
      const free = isEither ? ` ${sign === 1 ? '+' : '-'} ${slack} ${name}` : '';
      rows.push(
        `${each} - ${target} s${free} ${relation} ${sign * (stays + (isEither ? slack : 0))}`,
      );
    }
  }
};

const addLine = (line: SceneLine, rows: Rows): void => {
  const { n, target, net, d, state } = line;
  const [k, b, is] = [`k${n}`, `b${n}`, `r${n}`];
  const t = decimal(over(target, d));
  const r = decimal(over(net, d));
  const least = Number(leastOf(line));
  const isPending = net[0] === 0n && state === 'open';
  rows.integers.push(k);
  rows.binaries.push(b);
  // `is` is 1 always: a constant on the left of a row.
  rows.rows.push(`${is} = 1`);
  rows.rows.push(`${k} - ${least} ${b} >= 0`);
  rows.rows.push(`${k} - ${Math.ceil(t * largest * 2) + least} ${b} <= 0`);
  if (isPending) rows.rows.push(`${b} = 1`);
  const filled = `${k} + ${r} ${is}`;
  const room = net[0] === 0n ? [] : [`${least + 2} ${b} + ${r} ${is}`];
  within([filled, ...room], t, boundsOf(line.over, line), { name: `u${n}`, sign: 1 }, rows);
  within([filled], t, boundsOf(line.under, line), { name: `l${n}`, sign: -1 }, rows);
};

export const asProgramme = ({ lines }: Scene): string => {
  const rows: Rows = { rows: [], binaries: [], integers: [] };
  for (const line of lines) addLine(line, rows);
  return [
    'Minimize',
    ' size: s',
    'Subject To',
    ...rows.rows.map((row, at) => ` c${at}: ${row}`),
    'Bounds',
    ` 1 <= s <= ${largest}`,
    'Generals',
    ` ${rows.integers.join(' ')}`,
    'Binaries',
    ` ${rows.binaries.join(' ')}`,
    'End',
  ].join('\n');
};

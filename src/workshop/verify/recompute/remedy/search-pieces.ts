/** The first number of whole pieces at which everything holds: by halving, halves without hope left out. */
import { isMore, type Ratio } from '../../../../core/quantity/quantity.ts';
import { type Finish, finishAt, isHopeless, reasonAgainst, type Standing } from './finish.ts';
import { type FirstFree, stretchTo } from './free-stretch.ts';

export interface Search {
  readonly standing: Standing;
  readonly kept: readonly boolean[];
  readonly firstFree: FirstFree;
  /** What the batch comes to at its present size. */
  readonly pieces: Ratio;
}

const isFree = ({ firstFree }: Search, stretch: Ratio): boolean =>
  !isMore(firstFree(stretch), stretch);

const alone = (search: Search, finish: Finish): Finish | undefined =>
  isFree(search, finish.stretch) &&
  reasonAgainst(search.standing, finish, search.kept) === undefined
    ? finish
    : undefined;

/** Both ends are tried too; undefined where none will do. */
export const searchPieces = (search: Search, from: bigint, to: bigint): Finish | undefined => {
  const { standing, kept, pieces } = search;
  const at = (count: bigint): Finish => finishAt(standing, stretchTo(count, pieces));
  const between = (
    first: readonly [bigint, Finish],
    last: readonly [bigint, Finish],
  ): Finish | undefined => {
    if (isHopeless(standing, [first[1], last[1]], kept)) return undefined;
    if (first[0] === last[0]) return alone(search, first[1]);
    const middle = (first[0] + last[0]) / 2n;
    return between(first, [middle, at(middle)]) ?? between([middle + 1n, at(middle + 1n)], last);
  };
  return between([from, at(from)], [to, at(to)]);
};

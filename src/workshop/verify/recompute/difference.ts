/** Where a record says one thing and the second working out another. */
import { isObject } from '../shape.ts';

export interface Difference {
  /** `result.yield.percent`, `events[12].judged.net`. */
  readonly path: string;
  /** As JSON; absent where the record has nothing there. */
  readonly recorded?: string;
  readonly workedOut?: string;
}

const asJson = (value: unknown): string | undefined => JSON.stringify(value);

const here = (path: string, recorded: unknown, workedOut: unknown): Difference => {
  const [left, right] = [asJson(recorded), asJson(workedOut)];
  return {
    path,
    ...(left === undefined ? {} : { recorded: left }),
    ...(right === undefined ? {} : { workedOut: right }),
  };
};

const childrenOf = (value: unknown): ReadonlyMap<string, unknown> | undefined => {
  if (Array.isArray(value)) return new Map(value.map((each: unknown, n) => [`[${n}]`, each]));
  return isObject(value)
    ? new Map(Object.entries(value).map(([key, each]) => [`.${key}`, each]))
    : undefined;
};

/** Compares two pieces of JSON member by member, the order of keys included. */
export const differencesBetween = (
  path: string,
  recorded: unknown,
  workedOut: unknown,
): readonly Difference[] => {
  if (asJson(recorded) === asJson(workedOut)) return [];
  const [left, right] = [childrenOf(recorded), childrenOf(workedOut)];
  if (left === undefined || right === undefined) return [here(path, recorded, workedOut)];
  const keys = [...new Set([...right.keys(), ...left.keys()])];
  const inside = keys.flatMap(key => differencesBetween(path + key, left.get(key), right.get(key)));
  return inside.length > 0 ? inside : [here(path, recorded, workedOut)];
};

/** One sentence that names the first difference and counts the others. */
export const explainDifferences = ([first, ...others]: readonly Difference[]): string => {
  if (first === undefined) return 'nothing differs';
  const { path, recorded = 'nothing', workedOut = 'nothing' } = first;
  const more = others.length === 0 ? '' : ` (and ${others.length} more)`;
  return `${path} says ${short(recorded)}, worked out again it is ${short(workedOut)}${more}`;
};

const short = (json: string): string => (json.length > 80 ? `${json.slice(0, 79)}…` : json);

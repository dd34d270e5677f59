import type { Addition, Plan } from '../core/plan/plan.ts';
import { targetOf, verdictOf } from '../core/plan/window.ts';
import { readMass } from '../core/quantity/amount.ts';
import { readNumber } from '../core/quantity/decimal.ts';
import { grams, isNegative, isZero, type Mass, noMass } from '../core/quantity/quantity.ts';
import type { Progress } from '../core/remedy/build-situation.ts';
import { usage } from './stop.ts';

export interface RemedyOptions {
  readonly poured?: readonly string[];
  readonly closed?: readonly string[];
}

const readNet = (text: string, whole: string): Mass => {
  const plain = readNumber(text);
  const net = plain === undefined ? readMass(text) : grams(plain);
  return net === undefined || isNegative(net)
    ? usage(`--poured takes a line and what is in of it, like 2=312.0 or "2=11 oz", not ${whole}.`)
    : net;
};

const findAddition = ({ additions }: Plan, named: string): Addition => {
  const found = additions.filter(({ n, material, name }) =>
    /^\d+$/.test(named) ? String(n) === named : material === named || name === named,
  );
  const [first, ...others] = found;
  if (first === undefined) {
    return usage(
      `No addition is called ${named}. Name one by its number, 1 to ${additions.length}, or its material.`,
    );
  }
  return others.length === 0
    ? first
    : usage(
        `${named} is added more than once. Name the line by its number: ${found.map(({ n }) => n).join(', ')}.`,
      );
};

const readPoured = (plan: Plan, texts: readonly string[]): ReadonlyMap<number, Mass> => {
  const poured = new Map<number, Mass>();
  for (const text of texts) {
    const at = text.lastIndexOf('=');
    const { n } = findAddition(plan, text.slice(0, Math.max(at, 0)).trim());
    if (poured.has(n)) return usage(`--poured names line ${n} twice.`);
    poured.set(n, readNet(text.slice(at + 1).trim(), text));
  }
  return poured;
};

const readClosed = ({ phases }: Plan, names: readonly string[]): ReadonlySet<string> => {
  const known = phases.map(({ name }) => name);
  const odd = names.find(name => !known.includes(name));
  return odd === undefined
    ? new Set(names)
    : usage(`The sheet has no phase ${odd}. Its phases: ${known.join(', ')}.`);
};

/**
 * What was poured of a batch on paper. A line that is not named has nothing in yet, in a closed phase its
 * target. A line can be taken back from while no later line of its vessel has anything in. Stops with status 2.
 */
export const readRemedyOptions = (plan: Plan, options: RemedyOptions): Progress => {
  const closedPhases = readClosed(plan, options.closed ?? []);
  const named = readPoured(plan, options.poured ?? []);
  const netOf = (addition: Addition): Mass =>
    named.get(addition.n) ?? (closedPhases.has(addition.phase) ? targetOf(addition) : noMass);
  const isLast = ({ n, vessel }: Addition): boolean =>
    plan.additions.every(each => each.vessel !== vessel || each.n <= n || isZero(netOf(each)));
  const lines = plan.additions.map(addition => {
    const net = netOf(addition);
    const state = isZero(net) ? ('open' as const) : ('poured' as const);
    return [addition.n, { net, state, canTakeBack: isLast(addition) }] as const;
  });
  return {
    lines: new Map(lines),
    adjusts: new Map(),
    done: new Set(),
    closedPhases,
    stock: new Map(),
  };
};

/** The lines that have something in and are out of their windows. */
export const outOfWindow = (plan: Plan, { lines }: Progress) =>
  plan.additions.flatMap(addition => {
    const net = lines.get(addition.n)?.net ?? noMass;
    const verdict = verdictOf(net, addition.window);
    return isZero(net) || verdict === 'in' ? [] : [{ addition, net, verdict }];
  });

import { toDecimal } from '../../core/quantity/decimal.ts';
import {
  add,
  dividedBy,
  isPositive,
  larger,
  type Mass,
  one,
  type Ratio,
  ratio,
  ratioOf,
  smaller,
  subtract,
  times,
  zero,
} from '../../core/quantity/quantity.ts';
import type { AdditionText } from '../../core/result/record.ts';
import type { Verdict } from '../../core/run/event.ts';
import { massFrom } from '../../core/run/mass-text.ts';
import { html, type Markup } from './markup.ts';
import { showMass } from './show-record.ts';

// In the units of the drawing, which is 220 wide.
const [left, width] = [ratio(8n), ratio(204n)];

// The window takes the middle third; as much again is shown to either side of it.
const rangeOf = ({ windowLow, windowHigh, exact }: AdditionText): { from: Mass; span: Mass } => {
  const [low, high] = [massFrom(windowLow), massFrom(windowHigh)];
  const wide = subtract(high, low);
  const side = isPositive(wide) ? wide : dividedBy(massFrom(exact), ratio(100n));
  return { from: subtract(low, side), span: add(add(side, side), wide) };
};

const place = (mass: Mass, addition: AdditionText): Ratio => {
  const { from, span } = rangeOf(addition);
  const share = isPositive(span) ? ratioOf<'g'>(subtract(mass, from), span) : ratio(1n, 2n);
  const inside = smaller(larger(share, zero), one);
  return add(left, times(width, inside));
};

const text = (coordinate: Ratio): string => toDecimal(coordinate, 2, 'half-even');

const spoken = { under: 'under', in: 'in the window', over: 'over' } as const;

/** A total on its window: the box is what is accepted, the line the target, the wedge what is in; beyond the end of the scale it stands at the end. */
export const gauge = (addition: AdditionText, total: string, verdict: Verdict): Markup => {
  const [low, high, target, here] = [
    place(massFrom(addition.windowLow), addition),
    place(massFrom(addition.windowHigh), addition),
    place(massFrom(addition.target), addition),
    place(massFrom(total), addition),
  ];
  return html`<svg class="gauge" viewBox="0 0 220 24" width="220" height="24" role="img" aria-label="${showMass(total)}, ${spoken[verdict]}"><path d="M8 18H212" class="axis"/><rect x="${text(low)}" y="11" width="${text(subtract(high, low))}" height="7" class="window"/><path d="M${text(target)} 9V21" class="target"/><path d="M${text(here)} 16l-5-13h10z" class="${verdict === 'in' ? 'wedge' : 'wedge out'}"/></svg>`;
};

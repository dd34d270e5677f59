/** How the text in the field is understood before it counts. */

import { verdictOf } from '../plan/window.ts';
import { add, isNegative } from '../quantity/quantity.ts';
import { readReading, withoutMarks } from '../quantity/reading.ts';
import type { Asked } from '../run/asked.ts';
import type { Part, Way } from '../run/event.ts';
import { additionInHand } from '../run/focus.ts';
import { earlierPours, netOf } from '../run/judge.ts';
import type { OpenRun } from '../run/state.ts';
import { offTarget, showOn } from './explain.ts';

const verdictText = { under: 'under', in: 'in', over: 'OVER' } as const;

/** The reading with its unit, and how the addition would lie in its window. */
export const echoReading = (
  run: OpenRun,
  asked: Asked,
  way: Way,
  typed: string,
): string | undefined => {
  if (asked.kind !== 'reading' && asked.kind !== 'after' && asked.kind !== 'residue')
    return undefined;
  const found = additionInHand(run, asked.n);
  const scale = found?.addition.onScale?.scale;
  if (found === undefined || scale === undefined) return undefined;
  const reading = readReading(typed, scale);
  if (!reading.ok) return /^[+\-−\s]*\d/.test(withoutMarks(typed)) ? reading.message : undefined;
  const part: Part =
    asked.kind === 'reading' ? (way === 'difference' ? 'before' : 'display') : asked.kind;
  const { addition, state } = found;
  const shown = showOn(addition, reading.mass);
  const net = netOf(run, addition, state, { way, part, shown: reading.mass });
  if (net === undefined || isNegative(net)) return shown;
  const total = add(earlierPours(state), net);
  return `${shown} · ${verdictText[verdictOf(total, addition.window)]} · ${offTarget(addition, total)}`;
};

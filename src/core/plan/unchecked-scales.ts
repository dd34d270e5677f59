import { showDuration } from '../quantity/show.ts';
import { type Problem, problem } from '../sheet/problem.ts';
import { quote } from '../sheet/quote.ts';
import type { ScaleCheck, Sheet } from '../sheet/sheet.ts';
import { type Instant, readInstant, secondsBetween } from '../time/instant.ts';
import type { Plan, Scale } from './plan.ts';

/** The scales on which something is to be weighed, each once, in the order of the plan. */
export const scalesOfPlan = ({ additions }: Plan): readonly Scale[] => [
  ...new Set(additions.flatMap(({ onScale }) => onScale?.scale ?? [])),
];

/** Why a scale has no good check in that time; undefined where it has one. A clock that went back does not make a check late. */
export const checkFaultOf = (
  { lastCheck }: Pick<Scale, 'lastCheck'>,
  rule: { readonly within: bigint | number } | undefined,
  at: Instant,
): string | undefined => {
  const checked = lastCheck && readInstant(lastCheck.at);
  if (lastCheck?.verdict === 'beyond') return 'was beyond its limits when it was last checked';
  if (rule === undefined) return undefined;
  if (checked === undefined) return 'was never checked';
  const ago = secondsBetween(checked, at);
  return BigInt(ago) > rule.within ? `was last checked ${showDuration(ago)} ago` : undefined;
};

/**
 * The scales of a plan without a good check in the time that the sheet, or else the workshop, asks
 * for. Where neither asks, only a scale that was beyond its limits at its last check.
 */
export const uncheckedScales = (
  sheet: Sheet,
  plan: Plan,
  usual: ScaleCheck | undefined,
  at: Instant,
): readonly Problem[] => {
  const rule = sheet.scaleCheck ?? usual;
  const place = sheet.scaleCheck?.place ?? sheet.makes.place;
  const asks =
    rule === undefined
      ? ''
      : ` ${sheet.scaleCheck === undefined ? 'The workshop' : 'The sheet'} asks for a check within ${showDuration(rule.within)} before a batch.`;
  return scalesOfPlan(plan).flatMap(scale => {
    const fault = checkFaultOf(scale, rule, at);
    if (fault === undefined) return [];
    const message = `The scale ${quote(scale.name)} ${fault}.${asks}`;
    const check =
      scale.lastCheck?.verdict === 'beyond'
        ? 'Have it adjusted and check it again: tarebook scales check.'
        : 'Check it with test masses: tarebook scales check.';
    return rule?.otherwise === 'refuse'
      ? { ...problem('scale-unchecked', place, message, check), severity: 'error' as const }
      : problem(
          'scale-unchecked',
          place,
          message,
          `${check} The record of a batch made all the same says so.`,
        );
  });
};

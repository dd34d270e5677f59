import type { Scale } from '../plan/plan.ts';
import type { Mass } from '../quantity/quantity.ts';
import { intervalOf, minimumCapacity } from './accuracy-class.ts';
import { minimumWeight } from './repeatability.ts';

export interface LeastLoad {
  readonly mass: Mass;
  readonly by: 'own figure' | 'class' | 'repeatability';
}

/**
 * The least net mass that a scale is to weigh: the workshop's own figure, else by class (R 76-1), else
 * from measured repeatability (USP <41>). Undefined where nothing of it is known.
 */
export const leastLoad = (scale: Scale): LeastLoad | undefined => {
  const { accuracyClass, repeatability, readability } = scale;
  if (scale.leastLoad !== undefined) return { mass: scale.leastLoad, by: 'own figure' };
  const byClass = accuracyClass && minimumCapacity(accuracyClass, intervalOf(scale));
  if (byClass !== undefined) return { mass: byClass, by: 'class' };
  return repeatability && { mass: minimumWeight(repeatability, readability), by: 'repeatability' };
};

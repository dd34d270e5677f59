/**
 * Every remedy with everything switched on: what is offered, followed exactly to the finish, breaks
 * nothing; what is not offered has the reason that it names. Against the rules a second time; all
 * situations are invented by chance.
 */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { remedies } from '../../../src/core/remedy/remedies.ts';
import { type Remedy, remedyKinds } from '../../../src/core/remedy/remedy.ts';
import { cases, seed } from '../../helpers/cases.ts';
import { everything, situationOf } from '../../helpers/remedy-scene.ts';
import { checkOffered, checkPieces, checkRefused } from '../../helpers/remedy-verdict.ts';

const count = cases(300);

const describeAll = (tally: ReadonlyMap<string, number>): string =>
  [...tally]
    .toSorted(([a], [b]) => a.localeCompare(b))
    .map(([what, times]) => `\n  ${what}: ${times}`)
    .join('');

const outcome = (each: Remedy): string =>
  each.possible ? (each.forcedBy === undefined ? 'offered' : 'forced') : each.reason.code;

describe('the remedies', () => {
  it('break nothing where they are offered, and name a reason that holds where they are not', () => {
    const tally = new Map<string, number>();
    const note = (what: string): void => void tally.set(what, (tally.get(what) ?? 0) + 1);
    fc.assert(
      fc.property(fc.noBias(fc.gen()), g => {
        const scene = everything(g);
        const all = remedies(situationOf(scene));
        expect(all.map(each => each.kind)).toEqual(remedyKinds);
        for (const each of all) {
          note(`${each.kind} ${outcome(each)}`);
          if (!each.possible) checkRefused(scene, all, each);
          else checkOffered(scene, each);
          if (each.possible && each.kind === 'whole-pieces') checkPieces(scene, all, each);
        }
      }),
      { numRuns: count, seed },
    );
    console.info(`remedies of ${count} situations:${describeAll(tally)}`);
  }, 3_600_000);
});

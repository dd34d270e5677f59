import type { Bench, Done, Opening } from '../core/dialogue/bench.ts';
import { planBatch } from '../core/plan/plan-batch.ts';
import { uncheckedScales } from '../core/plan/unchecked-scales.ts';
import type { Settings } from '../core/sheet/read-settings.ts';
import { enrol } from './enrol.ts';
import { finishClosing } from './finish-closing.ts';
import { beginBatch, type HeldBatch, openBatch } from './open-batch.ts';
import { enterScale, readRegister, scalesOf } from './register.ts';
import { settingsOf } from './settings.ts';
import { signBatch } from './sign-batch.ts';
import { keyHere } from './signer-key.ts';
import { signAsWitness } from './witness.ts';
import type { Workshop } from './workshop.ts';

export interface BenchWish {
  readonly workshop: Workshop;
  /** Where private keys live: outside the workshop. */
  readonly keysDir: string;
  readonly person?: string;
  /** The sheet to be made. */
  readonly opening?: Opening;
  /** The batch to go on with. */
  readonly batch?: string;
  /** Why the lock of another computer is set aside. */
  readonly takeOver?: string;
}

/** A bench, and what gives back the batch that it holds. */
export interface HeldBench {
  readonly bench: Bench;
  readonly release: () => void;
}

const orTold = <T>(workshop: Workshop, done: Done<T>, otherwise: T): T => {
  if (done.ok) return done.value;
  workshop.tell(done.why);
  return otherwise;
};

// The record is there as soon as its batch is closed, signed or not.
const closeWhenDone = (workshop: Workshop, { session }: HeldBatch): void => {
  const finish = (): void => {
    const run = session.state();
    if (run.phase === 'closed') orTold(workshop, finishClosing(workshop, run.batch), undefined);
  };
  // A closing that was interrupted is finished by going on with its batch.
  finish();
  session.subscribe(finish);
};

const noSettings: Done<Settings> = { ok: true, value: {} };

/** The workshop as a conversation sees it. Refused where the batch or the register cannot be opened. */
export const createBench = (wish: BenchWish): Done<HeldBench> => {
  const { workshop, keysDir, person, opening } = wish;
  const register = readRegister(workshop);
  if (!register.ok) return register;
  // A batch in hand goes on whatever the settings are now.
  const settings = opening === undefined ? noSettings : settingsOf(workshop);
  if (!settings.ok) return settings;
  const opened =
    wish.batch === undefined ? undefined : openBatch(workshop, wish.batch, wish.takeOver);
  if (opened?.ok === false) return opened;
  let held = opened?.value;

  if (held !== undefined) closeWhenDone(workshop, held);

  const begin: Bench['begin'] = (opening, scales, by, scaleReason) => {
    const begun = beginBatch(workshop, opening, scales, {
      by,
      ...(scaleReason === undefined ? {} : { scaleReason }),
    });
    if (!begun.ok) return begun;
    held = begun.value;
    closeWhenDone(workshop, held);
    return { ok: true, value: held.session };
  };

  const bench: Bench = {
    now: workshop.now,
    person,
    scales: () => {
      const lines = orTold(workshop, readRegister(workshop), []);
      return scalesOf(lines);
    },
    addScale: (scale, by) => enterScale(workshop, scale, by),
    opening,
    plan: ({ sheet, size, practice }, scales) => {
      const { plan, problems } = planBatch(sheet, size, scales);
      const { scaleCheck } = settings.value;
      return practice
        ? { plan, problems }
        : {
            plan,
            problems: [...problems, ...uncheckedScales(sheet, plan, scaleCheck, workshop.now())],
          };
    },
    begin,
    session: held?.session,
    hasKey: name => orTold(workshop, keyHere(workshop, keysDir, name), undefined) !== undefined,
    enrol: (name, passphrase) => {
      const kid = enrol(workshop, keysDir, name, passphrase);
      return Promise.resolve(kid.ok ? { ok: true, value: true } : kid);
    },
    witness: (step, name, passphrase) =>
      Promise.resolve(
        held === undefined
          ? { ok: false, why: 'No batch is open.' }
          : signAsWitness(workshop, keysDir, held, { step, name, passphrase }),
      ),
    sign: (batch, name, passphrase, meaning) =>
      Promise.resolve(signBatch(workshop, keysDir, { batch, name, passphrase, meaning })),
  };
  return { ok: true, value: { bench, release: () => held?.release() } };
};

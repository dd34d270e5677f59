import { type Disk, realDisk } from '../../src/workshop/disk.ts';

/** An error as the system gives it. */
export const systemError = (code: string): Error => Object.assign(new Error(code), { code });

/** A disk that fails in chosen calls: each is asked first, and throws or answers in the real one's place. */
export const failingDisk = (faults: Partial<Disk>): Disk => ({ ...realDisk, ...faults });

/** Fails once when `isDue`, then never again. */
export const once = (code: string): (() => void) => {
  let isDue = true;
  return () => {
    if (!isDue) return;
    isDue = false;
    throw systemError(code);
  };
};

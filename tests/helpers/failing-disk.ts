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

/** Stops for good at the nth call that changes the disk, as a power cut does. */
export const cutAt = (n: number): { disk: Disk; isCut: () => boolean } => {
  let left = n;
  const before = <A extends unknown[], R>(call: (...values: A) => R) => {
    return (...values: A): R => {
      left -= 1;
      if (left < 0) throw systemError('EIO');
      return call(...values);
    };
  };
  const { write, sync, truncate, rename, link, remove, makeFolder } = realDisk;
  const disk = failingDisk({
    write: before(write),
    sync: before(sync),
    truncate: before(truncate),
    rename: before(rename),
    link: before(link),
    remove: before(remove),
    makeFolder: before(makeFolder),
  });
  return { disk, isCut: () => left < 0 };
};

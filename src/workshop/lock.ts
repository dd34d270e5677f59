/**
 * A lock is a complete file, linked into place, that says who holds it. One left by a dead process of
 * this machine is taken over; one of another machine never is, unless a person says so. No lock is
 * taken for its age: a laptop may sleep in the middle of a batch.
 */
import { dirname } from 'node:path';
import type { Done } from '../core/dialogue/bench.ts';
import { type Disk, ensureFolder, readIfThere } from './disk.ts';
import { attempt, errorCode } from './disk-error.ts';
import { type Holder, isDead, isOfThisMachine, ourselves, readHolder } from './lock-holder.ts';
import { withTemporary } from './write-durably.ts';

/** Who asks for a lock, and for what. */
export interface LockWish {
  /** What is locked, for people, as a sentence begins: `Batch CDR-2027-001`. */
  readonly what: string;
  readonly program: string;
  /** The instant now, as text. */
  readonly since: string;
  /** Whether a person vouches that another machine does not hold it any more. */
  readonly takeOver?: boolean;
  /** How long a lock that others hold only for moments is waited for. */
  readonly waitMs?: number;
}

export interface Lock {
  readonly release: () => void;
  /** Whose lock was taken over on a person's word, in a few words. */
  readonly tookOverFrom?: string;
}

type Found = Holder | 'free' | 'unreadable';

const lookAt = (disk: Disk, path: string): Found => {
  const bytes = readIfThere(disk, path);
  return bytes === undefined ? 'free' : (readHolder(bytes) ?? 'unreadable');
};

const linkExclusively = (disk: Disk, path: string, holder: Holder): boolean =>
  withTemporary(disk, path, { bytes: Buffer.from(`${JSON.stringify(holder)}\n`) }, temporary => {
    try {
      disk.link(temporary, path);
      return true;
    } catch (error) {
      if (errorCode(error) === 'EEXIST') return false;
      throw error;
    }
  });

/** Takes a free lock, or answers what stands there. One that is held is only looked at: a try to link writes to the disk. */
const tryToTake = (disk: Disk, path: string, us: Holder): Found | 'taken' => {
  const found = lookAt(disk, path);
  if (found !== 'free') return found;
  return linkExclusively(disk, path, us) ? 'taken' : lookAt(disk, path);
};

const isHeldBy = (disk: Disk, path: string, { id }: Holder): boolean => {
  const found = lookAt(disk, path);
  return typeof found === 'object' && found.id === id;
};

// Only who has linked the one file named after a dead holder may remove what that holder left, so two
// heirs never remove each other's fresh locks. An heir that dies over it is inherited in the same way.
const removeDead = (disk: Disk, path: string, dead: Holder, heir: Holder): void => {
  const claim = `${dirname(path)}/.heir-of-${dead.id}`;
  if (!linkExclusively(disk, claim, heir)) {
    const other = lookAt(disk, claim);
    if (typeof other === 'object' && isDead(other)) removeDead(disk, claim, other, heir);
    return;
  }
  try {
    if (isHeldBy(disk, path, dead)) disk.remove(path);
  } finally {
    disk.remove(claim);
  }
};

/** The machine of a lock that only a person's word takes over. */
const nameOf = (found: Found): string | undefined => {
  if (found === 'unreadable') return 'an unknown computer';
  return typeof found === 'object' && !isOfThisMachine(found)
    ? `the computer ${found.host}`
    : undefined;
};

const explainHeld = (path: string, { what, waitMs }: LockWish, found: Found): string => {
  // What is held for moments only is locked by every command: none of them asks for a take-over.
  const mend =
    waitMs === undefined ? 'take it over with --take-over and a reason' : `delete ${path}`;
  if (found === 'free') return `${what} is in use by others at this moment. Try again.`;
  if (found === 'unreadable') {
    return `${what} is locked, and its lock cannot be read. If nobody works on it, ${mend}.`;
  }
  const who = `${found.program}, process ${found.pid}`;
  return isOfThisMachine(found)
    ? `${what} is in use on this computer by ${who}, since ${found.since}. Leave it there first.`
    : `${what} is in use on the computer ${found.host} by ${who}, since ${found.since}. Leave it there first; if it surely is not in use there any more, ${mend}.`;
};

const clear = (disk: Disk, path: string, found: Found, us: Holder, takeOver: boolean): void => {
  if (typeof found === 'object') {
    if (isDead(found) || (takeOver && !isOfThisMachine(found))) removeDead(disk, path, found, us);
  } else if (found === 'unreadable' && takeOver) {
    disk.remove(path);
  }
};

const sleep = (ms: number): void => {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);
};

const pauseMs = 10;
/** Enough for a few heirs of a dead holder to sort themselves out. */
const fewestTries = 5;

const wait = (disk: Disk, path: string, wish: LockWish): Done<Lock> => {
  const us = ourselves(wish.program, wish.since);
  const tries = fewestTries + Math.ceil((wish.waitMs ?? 0) / pauseMs);
  let from: string | undefined;
  let found: Found = 'free';
  for (let n = 0; n < tries; n += 1) {
    const tried = tryToTake(disk, path, us);
    if (tried === 'taken') {
      const release = (): void => {
        attempt('', () => isHeldBy(disk, path, us) && disk.remove(path));
      };
      return {
        ok: true,
        value: { release, ...(from === undefined ? {} : { tookOverFrom: from }) },
      };
    }
    found = tried;
    if (wish.takeOver === true) from = nameOf(found) ?? from;
    clear(disk, path, found, us, wish.takeOver === true);
    sleep(pauseMs);
  }
  return { ok: false, why: explainHeld(path, wish, found) };
};

/** Takes a lock, or says who holds it. The folder of the lock is made if need be. */
export const acquireLock = (disk: Disk, path: string, wish: LockWish): Done<Lock> => {
  const done = attempt(`${wish.what} could not be locked`, () => {
    ensureFolder(disk, dirname(path));
    return wait(disk, path, wish);
  });
  return done.ok ? done.value : done;
};

/** Does something under a lock that is held only for the moment. */
export const withLock = <T>(
  disk: Disk,
  path: string,
  wish: LockWish,
  act: () => Done<T>,
): Done<T> => {
  const lock = acquireLock(disk, path, { waitMs: 5000, ...wish });
  if (!lock.ok) return lock;
  try {
    return act();
  } finally {
    lock.value.release();
  }
};

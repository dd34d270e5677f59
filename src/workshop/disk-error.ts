import type { Done } from '../core/dialogue/bench.ts';

/** An error with a code like those of the system. */
export const diskError = (code: string, message: string): Error =>
  Object.assign(new Error(message), { code });

/** The system's code of an error, such as ENOSPC; undefined for a fault of the program. */
export const errorCode = (error: unknown): string | undefined =>
  error instanceof Error &&
  'code' in error &&
  typeof error.code === 'string' &&
  /^E(?!RR_)/.test(error.code)
    ? error.code
    : undefined;

const plainWords: ReadonlyMap<string, string> = new Map([
  ['ENOSPC', 'the disk is full'],
  ['EDQUOT', 'your share of the disk is used up'],
  ['EROFS', 'the disk can only be read'],
  ['EACCES', 'you may not read or write there'],
  ['EPERM', 'you may not read or write there'],
  ['EIO', 'the disk reports a fault'],
  ['ENOENT', 'it is not there'],
  ['EISDIR', 'a folder stands where a file is needed'],
  ['ENOTDIR', 'a file stands where a folder is needed'],
  ['EMFILE', 'too many files are open'],
]);

const explainDisk = (error: Error, code: string): string => plainWords.get(code) ?? error.message;

/** Does something with the disk; where the disk refuses, answers with what failed and why, in plain words. */
export const attempt = <T>(what: string, act: () => T): Done<T> => {
  try {
    return { ok: true, value: act() };
  } catch (error) {
    const code = errorCode(error);
    if (code === undefined || !(error instanceof Error)) throw error;
    return { ok: false, why: `${what}: ${explainDisk(error, code)}.` };
  }
};

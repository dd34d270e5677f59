import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { hostname } from 'node:os';
import * as z from 'zod/mini';
import { errorCode } from './disk-error.ts';

const short = z.string().check(z.maxLength(200), z.regex(/^[^\p{Cc}\p{Cs}]*$/u));

const holderShape = z.strictObject({
  id: z.string().check(z.regex(/^[0-9a-f-]{36}$/)),
  pid: z.number().check(z.refine(pid => Number.isSafeInteger(pid) && pid > 0)),
  started: short,
  boot: short,
  host: short,
  program: short,
  since: short,
});

/**
 * Who holds a lock: a process, told from a later one with the same number by its start (ticks since
 * boot) and by the boot, where the system tells them; the machine, the program, and since when.
 */
export type Holder = Readonly<z.infer<typeof holderShape>>;

/** Undefined for anything but what `ourselves` makes. */
export const readHolder = (bytes: Uint8Array): Holder | undefined => {
  try {
    return holderShape.safeParse(JSON.parse(Buffer.from(bytes).toString('utf8'))).data;
  } catch {
    return undefined;
  }
};

const readSystem = (path: string): string => {
  try {
    return readFileSync(path, 'utf8').trim();
  } catch {
    return '';
  }
};

// Fields 3 and 22 of /proc/PID/stat, counted after the name, which may itself hold blanks and brackets.
// A zombie holds nothing any more.
const startOf = (pid: number): string => {
  const stat = readSystem(`/proc/${pid}/stat`);
  const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
  return fields[0] === 'Z' ? '' : (fields[19] ?? '');
};

const bootId = (): string => readSystem('/proc/sys/kernel/random/boot_id');

const isRunning = (pid: number): boolean => {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return errorCode(error) !== 'ESRCH';
  }
};

export const isOfThisMachine = ({ host }: Holder): boolean => host === hostname();

/** Whether the holder was a process of this machine and is gone, by its own end or by a restart. */
export const isDead = (holder: Holder): boolean =>
  isOfThisMachine(holder) &&
  (holder.boot !== bootId() || !isRunning(holder.pid) || holder.started !== startOf(holder.pid));

/** This process as a holder; `since` is an instant as text. */
export const ourselves = (program: string, since: string): Holder => ({
  id: randomUUID(),
  pid: process.pid,
  started: startOf(process.pid),
  boot: bootId(),
  host: hostname(),
  program,
  since,
});

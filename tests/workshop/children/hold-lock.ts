/** Takes a lock and holds it until it is killed, or goes through it again and again. */
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { realDisk } from '../../../src/workshop/disk.ts';
import { acquireLock, withLock } from '../../../src/workshop/lock.ts';

const [path = '', times = ''] = process.argv.slice(2);
const wish = { what: 'The bowl', program: 'child', since: 'now' };
const marker = `${path}.inside`;

// A marker of a living process inside the lock means that two are in it; one of a killed process does not.
const isSomeoneInside = (): boolean => {
  if (!existsSync(marker)) return false;
  try {
    process.kill(Number(readFileSync(marker, 'utf8')) || Number.NaN, 0);
    return true;
  } catch {
    return false;
  }
};

if (times === '') {
  console.log(acquireLock(realDisk, path, wish).ok ? 'held' : 'refused');
  setInterval(() => undefined, 1000);
} else {
  let count = 0;
  for (let n = 0; n < Number(times); n += 1) {
    const done = withLock(realDisk, path, { ...wish, waitMs: 20_000 }, () => {
      if (isSomeoneInside()) return { ok: false, why: 'two inside' };
      writeFileSync(marker, String(process.pid));
      rmSync(marker);
      return { ok: true, value: true };
    });
    if (done.ok) count += 1;
  }
  console.log(count);
}

import { join } from 'node:path';
import type { Done } from '../core/dialogue/bench.ts';
import { readSettings, type Settings } from '../core/sheet/read-settings.ts';
import { readIfThere } from './disk.ts';
import { attempt } from './disk-error.ts';
import type { Workshop } from './workshop.ts';

/** What the workshop asks for where a sheet says nothing; nothing for practice, or where no file stands. */
export const settingsOf = ({ folder, practice, disk }: Workshop): Done<Settings> => {
  const path = join(folder, 'settings.yaml');
  const read = attempt('The settings of the workshop could not be read', () =>
    practice ? undefined : readIfThere(disk, path),
  );
  if (!read.ok) return read;
  if (read.value === undefined) return { ok: true, value: {} };
  const settings = readSettings(read.value.toString('utf8'));
  if (settings.ok) return { ok: true, value: settings.settings };
  const [first] = settings.problems;
  return {
    ok: false,
    why: `${path}:${first?.line ?? 1}:${first?.column ?? 1}: ${first?.message ?? ''} ${first?.mend ?? ''}`,
  };
};

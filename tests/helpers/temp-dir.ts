import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';

const made: string[] = [];

afterAll(() => {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** A new folder that is removed when the tests of the file are done. */
export const tempDir = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'tarebook-test-'));
  made.push(folder);
  return folder;
};

/** The files of a batch's folder `addenda`, by their numbers. */
import { lstatSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileNames } from './formats.ts';
import { type FileRead, readBounded } from './read-bounded.ts';

export interface AddendaFolder {
  /** Numbers of which there is an addendum or a signature, ascending. */
  readonly numbers: readonly number[];
  /** Names that are none of ours. */
  readonly strays: readonly string[];
}

const stem = (n: number): string => String(n).padStart(3, '0');

const numberOf = (name: string): number | undefined => {
  const [, digits = ''] = /^(\d{3,6})(?:\.sig)?\.json$/.exec(name) ?? [];
  const n = Number(digits);
  return n > 0 && stem(n) === digits ? n : undefined;
};

// A power cut in the middle of writing leaves the file under its passing name; nothing reads it.
const isPassing = (name: string): boolean =>
  /^\d{3,6}(?:\.sig)?\.json\.new-[0-9a-f]{12}$/.test(name);

/** Lists the folder; undefined where something stands there that is no folder of ours. */
export const listAddenda = (folder: string): AddendaFolder | undefined => {
  const path = join(folder, fileNames.addenda);
  try {
    const stat = lstatSync(path, { throwIfNoEntry: false });
    if (stat === undefined) return { numbers: [], strays: [] };
    if (!stat.isDirectory()) return undefined;
    const names = readdirSync(path);
    const numbers = new Set(names.flatMap(name => numberOf(name) ?? []));
    return {
      numbers: [...numbers].toSorted((a, b) => a - b),
      strays: names.filter(name => numberOf(name) === undefined && !isPassing(name)),
    };
  } catch {
    return undefined;
  }
};

export interface AddendumFiles {
  readonly addendum: FileRead;
  readonly signature: FileRead;
}

export const readAddendumFiles = (folder: string, n: number): AddendumFiles => {
  const read = (ending: string): FileRead =>
    readBounded(join(folder, fileNames.addenda, `${stem(n)}${ending}`));
  return { addendum: read('.json'), signature: read('.sig.json') };
};

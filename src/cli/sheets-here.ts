import { readdirSync } from 'node:fs';
import { join, relative } from 'node:path';
import { readSheet } from '../core/sheet/read-sheet.ts';
import { demoFolder } from './places.ts';
import { readSheetFile } from './read-sheet-file.ts';
import { Stop } from './stop.ts';

export interface SheetHere {
  readonly path: string;
  /** Undefined where the sheet has errors; `tarebook check` tells them. */
  readonly name: string | undefined;
  readonly isDemo: boolean;
}

const yamlIn = (folder: string): readonly string[] => {
  try {
    return readdirSync(folder)
      .filter(name => /\.ya?ml$/.test(name))
      .sort()
      .map(name => join(folder, name));
  } catch {
    return [];
  }
};

// A folder may hold YAML that is no sheet at all: only what names itself a sheet is listed.
const readHere = (path: string): Pick<SheetHere, 'name'> | undefined => {
  try {
    const text = readSheetFile(path);
    if (!/^sheet:/m.test(text)) return undefined;
    const read = readSheet(text);
    return { name: read.ok ? read.sheet.name : undefined };
  } catch (error) {
    if (error instanceof Stop) return undefined;
    throw error;
  }
};

/** The sheets of the folder in which the program was called and of its `sheets`, then the demo sheets. */
export const sheetsHere = (folder: string): readonly SheetHere[] => {
  const demos = yamlIn(demoFolder());
  const own = [...yamlIn(folder), ...yamlIn(join(folder, 'sheets'))].filter(
    path => !demos.includes(path),
  );
  return [
    ...own.map(path => ({ path, isDemo: false })),
    ...demos.map(path => ({ path, isDemo: true })),
  ].flatMap(({ path, isDemo }) => {
    const read = readHere(path);
    return read === undefined
      ? []
      : [{ path: isDemo ? path : relative(folder, path), isDemo, ...read }];
  });
};

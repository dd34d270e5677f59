import { nearest } from './nearest.ts';
import { isEmpty, type MapNode, type Node } from './node.ts';
import { quote, quoteAll } from './quote.ts';
import { faultAt, type Placed, type Reader, type Report, type Schema } from './reader.ts';
import type { Place } from './sheet.ts';
import { gatherPieces, isTorn } from './torn-value.ts';

export interface Key<T> {
  readonly reader: Reader<T>;
  /** Shown by editors. */
  readonly about: string;
  readonly isRequired: boolean;
}

export const required = <T>(reader: Reader<T>, about: string): Key<T> => ({
  reader,
  about,
  isRequired: true,
});

export const optional = <T>(reader: Reader<T>, about: string): Key<T> => ({
  reader,
  about,
  isRequired: false,
});

export type Keys = Readonly<Record<string, Key<unknown>>>;

/**
 * What stands under keys. A member is undefined where its key is absent, and where it was reported as
 * unreadable; `has` tells the two apart.
 */
export type Draft<K extends Keys> = {
  readonly [Name in keyof K]: K[Name] extends Key<infer T> ? T | undefined : never;
} & { readonly place: Place; readonly has: ReadonlySet<string> };

/** What a reader reads. */
export type DraftOf<R> = R extends Reader<infer T> ? T : never;

/** A group whose keys are all known. */
export const keyed = <K extends Keys>(keys: K): Reader<Draft<K>> => {
  const known = new Map(Object.entries(keys));
  const needed = [...known].filter(([, key]) => key.isRequired);
  const example = `{${needed.map(([name, key]) => `${name}: ${key.reader.example}`).join(', ')}}`;
  return {
    example,
    schema: schemaOf(known),
    read: (node, report) => {
      if (node.kind === 'map') {
        // The only place where what was read by name becomes members again.
        // oxlint-disable-next-line typescript/no-unsafe-type-assertion
        return readKeys(known, node, report) as Draft<K>;
      }
      const mend = `Write keys with values, such as ${example}.`;
      return faultAt(node.place, report)('wrong-shape', 'Keys with values belong here.', mend);
    },
  };
};

/** A group of which the sheet has several kinds. */
export const kinded = <Kind extends string, K extends Keys>(
  kind: Kind,
  keys: K,
): Reader<{ readonly kind: Kind } & Draft<K>> => {
  const group = keyed(keys);
  return {
    ...group,
    read: (node, report) => {
      const draft = group.read(node, report);
      return draft === undefined ? undefined : { ...draft, kind };
    },
  };
};

const schemaOf = (known: ReadonlyMap<string, Key<unknown>>): Schema => ({
  type: 'object',
  additionalProperties: false,
  required: [...known].filter(([, key]) => key.isRequired).map(([name]) => name),
  properties: Object.fromEntries(
    [...known].map(([name, { reader, about }]) => [name, { description: about, ...reader.schema }]),
  ),
});

const readKeys = (known: ReadonlyMap<string, Key<unknown>>, node: MapNode, report: Report) => {
  const values = new Map<string, unknown>();
  const standing = new Set(node.entries.map(entry => entry.key));
  for (const group of gatherPieces(node, key => known.has(key))) {
    const { key: typed, place, value } = group.entry;
    const free = [...known.keys()].filter(name => !standing.has(name));
    const name = known.has(typed) ? typed : nearest(typed, free);
    if (name !== typed) reportUnknown(typed, place, name, known.keys(), report);
    const reader = known.get(name ?? '')?.reader;
    if (name === undefined || reader === undefined) continue;
    // A misspelt key is read on as the right one, and what is wrong behind it is found as well.
    standing.add(name);
    values.set(
      name,
      isTorn(group, report) ? undefined : readValue(reader, value, place, name, report),
    );
  }
  reportMissing(known, values, node.place, report);
  return { ...Object.fromEntries(values), place: node.place, has: new Set(values.keys()) };
};

const readValue = (
  reader: Reader<unknown>,
  value: Node,
  place: Place,
  name: string,
  report: Report,
): unknown => {
  if (!isEmpty(value) || reader.mayBeEmpty === true) return reader.read(value, report);
  const mend = `Write one, such as ${name}: ${reader.example}`;
  return faultAt(place, report)('no-value', `“${name}” has no value.`, mend);
};

const reportUnknown = (
  typed: string,
  place: Place,
  near: string | undefined,
  all: Iterable<string>,
  report: Report,
): void => {
  const mend =
    near === undefined
      ? `Delete it, or use one of ${quoteAll(all)}.`
      : `Write ${quote(near)} instead.`;
  faultAt(place, report)('unknown-key', `There is no key ${quote(typed)} here.`, mend);
};

const reportMissing = (
  known: ReadonlyMap<string, Key<unknown>>,
  values: ReadonlyMap<string, unknown>,
  place: Place,
  report: Report,
): void => {
  for (const [name, { reader, isRequired }] of known) {
    if (!isRequired || values.has(name)) continue;
    const mend = `Add ${name}: ${reader.example}`;
    faultAt(place, report)('missing-key', `“${name}” is missing here.`, mend);
  }
};

/** A group whose keys are names that the sheet gives; one that cannot be read leaves a hole under its name. */
export const named = <T>(
  reader: Reader<T>,
): Reader<ReadonlyMap<string, Placed<T | undefined>>> => ({
  example: `{name: ${reader.example}}`,
  schema: { type: 'object', additionalProperties: reader.schema },
  read: (node, report) => {
    if (node.kind !== 'map') {
      const mend = `Write one on each line, such as name: ${reader.example}`;
      return faultAt(node.place, report)('wrong-shape', 'Names with values belong here.', mend);
    }
    const values = new Map<string, Placed<T | undefined>>();
    for (const group of gatherPieces(node, () => false)) {
      const { key, place, value } = group.entry;
      const read = isTorn(group, report) ? undefined : reader.read(value, report);
      values.set(key, { place, value: read });
    }
    return values;
  },
});

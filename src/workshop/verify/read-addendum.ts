import type { Addendum } from '../../core/result/addendum.ts';
import { addendumKinds, addendumMediaType } from './formats.ts';
import {
  count,
  hash,
  instant,
  isObject,
  isWrittenAsOurs,
  oneOf,
  readJson,
  shape,
  text,
} from './shape.ts';

const members = ['type', 'batch', 'n', 'kind', 'text', 'refers', 'at', 'by', 'record'];

const addendumShape = shape(
  {
    type: oneOf(addendumMediaType),
    batch: text,
    n: count,
    kind: oneOf(...addendumKinds),
    text,
    at: instant,
    by: text,
    record: hash,
  },
  { refers: count },
);

const isAddendum = (value: unknown): value is Addendum =>
  addendumShape(value) &&
  isObject(value) &&
  Object.keys(value).join() === members.filter(name => Object.hasOwn(value, name)).join();

/** Reads an addendum; undefined for any other version, member or spelling than our own. */
export const readAddendum = (source: string): Addendum | undefined => {
  const value = readJson(source);
  return isAddendum(value) && isWrittenAsOurs(value, source) ? value : undefined;
};

import type { Addendum } from '../../core/result/addendum.ts';
import { readInstant } from '../../core/time/instant.ts';
import { addendumMediaType } from './formats.ts';
import { count, hash, isObject, jsonText, oneOf, readJson, shape, text } from './shape.ts';

const members = ['type', 'batch', 'n', 'kind', 'text', 'refers', 'at', 'by', 'record'];

const addendumShape = shape(
  {
    type: oneOf(addendumMediaType),
    batch: text,
    n: count,
    kind: oneOf('packing', 'retained sample', 'complaint', 'correction', 'assessment'),
    text,
    at: value => typeof value === 'string' && readInstant(value) !== undefined,
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
  const value = readJson(source)?.value;
  return isAddendum(value) && `${jsonText(value, 2)}\n` === source ? value : undefined;
};

import type { Schema } from './reader.ts';
import { sheetReader } from './sheet-reader.ts';

/** The JSON Schema (draft 7) by which editors complete and check a sheet; made of the description that reads it. */
export const sheetSchema: Schema = {
  $schema: 'http://json-schema.org/draft-07/schema#',
  $id: 'urn:tarebook:batch-sheet',
  title: 'Batch sheet',
  description: 'The instructions for one product: formula, order, tolerances and steps.',
  ...sheetReader.schema,
};

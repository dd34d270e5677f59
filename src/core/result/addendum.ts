/** What is written after a batch is closed: an addendum beside its record, which itself never changes. */
export const addendumType = 'application/vnd.tarebook.addendum+json;version=0';

export const addendumKinds = [
  'packing',
  'retained sample',
  'complaint',
  'correction',
  'assessment',
] as const;

export type AddendumKind = (typeof addendumKinds)[number];

/** What addenda/NNN.json holds, in this order of keys. */
export interface Addendum {
  readonly type: typeof addendumType;
  readonly batch: string;
  /** Counts from 1 in each batch, without gaps. */
  readonly n: number;
  readonly kind: AddendumKind;
  readonly text: string;
  /** Of an assessment only: which of the record's deviations it assesses, from 1. */
  readonly refers?: number;
  readonly at: string;
  readonly by: string;
  /** SHA-256 of record.json. */
  readonly record: string;
}

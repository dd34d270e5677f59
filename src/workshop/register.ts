import * as z from 'zod/mini';
import type { Done } from '../core/dialogue/bench.ts';
import type { Scale } from '../core/plan/plan.ts';
import { readNumber, toExact } from '../core/quantity/decimal.ts';
import { grams, type Mass } from '../core/quantity/quantity.ts';
import { massUnits } from '../core/quantity/unit.ts';
import { type Book, bookLine, enter, readBook, shortText } from './book.ts';
import type { PublicKey } from './keys.ts';
import type { Workshop } from './workshop.ts';

const massText = z.string().check(z.regex(/^\d{1,40}(?:\.\d{1,40}|\/[1-9]\d{0,39})?$/));
const base64urlOf32 = z.string().check(z.regex(/^[\w-]{43}$/));

const registerLine = z.discriminatedUnion('type', [
  /** A person's public key (RFC 8037) and its thumbprint (RFC 7638). */
  bookLine('enrolled', {
    name: shortText,
    kid: base64urlOf32,
    key: z.strictObject({
      kty: z.literal('OKP'),
      crv: z.literal('Ed25519'),
      x: base64urlOf32,
    }),
  }),
  /** A scale; a later line of the same name replaces it. Masses in grams. */
  bookLine('scale-entered', {
    name: shortText,
    capacity: massText,
    readability: massText,
    unit: z.string().check(z.refine(unit => massUnits.has(unit))),
  }),
]);

export type RegisterLine = Readonly<z.infer<typeof registerLine>>;

const registerBook = ({ register }: Workshop): Book<RegisterLine> => ({
  path: register,
  name: 'The register',
  line: registerLine,
});

export const readRegister = (workshop: Workshop): Done<readonly RegisterLine[]> =>
  readBook(workshop, registerBook(workshop));

const massOf = (text: string): Mass => {
  const value = readNumber(text);
  if (value === undefined) throw new RangeError(`not a mass: ${text}`);
  return grams(value);
};

/** The scales as last entered, in the order in which their names first came. */
export const scalesOf = (lines: readonly RegisterLine[]): readonly Scale[] => {
  const scales = new Map<string, Scale>();
  for (const line of lines) {
    if (line.type !== 'scale-entered') continue;
    const { name, capacity, readability, unit } = line;
    scales.set(name, {
      name,
      capacity: massOf(capacity),
      readability: massOf(readability),
      unit,
    });
  }
  return [...scales.values()];
};

/** A person's keys, the latest first. */
export const keysOf = (lines: readonly RegisterLine[], name: string): readonly PublicKey[] =>
  lines
    .flatMap(line => (line.type === 'enrolled' && line.name === name ? line : []))
    .map(({ kid, key }) => ({ kid, jwk: key }))
    .toReversed();

export const enterScale = (workshop: Workshop, scale: Scale, by: string): Done =>
  enter(workshop, registerBook(workshop), by, () => ({
    ok: true,
    value: {
      type: 'scale-entered',
      name: scale.name,
      capacity: toExact(scale.capacity),
      readability: toExact(scale.readability),
      unit: scale.unit,
    },
  }));

/** Puts a person's public key on the register; the person answers for it. */
export const enterKey = (workshop: Workshop, name: string, { kid, jwk }: PublicKey): Done =>
  enter(workshop, registerBook(workshop), name, () => ({
    ok: true,
    value: { type: 'enrolled', name, kid, key: { kty: jwk.kty, crv: jwk.crv, x: jwk.x } },
  }));

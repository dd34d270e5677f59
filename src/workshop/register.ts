import * as z from 'zod/mini';
import type { Done } from '../core/dialogue/bench.ts';
import type { CheckVerdict, Scale } from '../core/plan/plan.ts';
import { toExact } from '../core/quantity/decimal.ts';
import type { Mass } from '../core/quantity/quantity.ts';
import { scaleText } from '../core/run/size-text.ts';
import type { TestLoad } from '../core/scale/check-scale.ts';
import { quote } from '../core/sheet/quote.ts';
import {
  type Book,
  base64urlOf32,
  bookLine,
  type Entry,
  enter,
  readBook,
  shortText,
} from './book.ts';
import type { PublicKey } from './keys.ts';
import { type ScaleLine, scaleLines, scalesFrom } from './scale-lines.ts';
import type { Workshop } from './workshop.ts';

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
  ...scaleLines,
]);

export type RegisterLine = Readonly<z.infer<typeof registerLine>>;

const registerBook = ({ register }: Workshop): Book<RegisterLine> => ({
  path: register,
  name: 'The register',
  line: registerLine,
});

export const readRegister = (workshop: Workshop): Done<readonly RegisterLine[]> =>
  readBook(workshop, registerBook(workshop));

const isOfScale = (line: RegisterLine): line is ScaleLine => line.type !== 'enrolled';

/** The scales in use, as last entered and checked, in the order in which their names first came. */
export const scalesOf = (lines: readonly RegisterLine[]): readonly Scale[] =>
  scalesFrom(lines.filter(isOfScale));

/** A person's keys, the latest first. */
export const keysOf = (lines: readonly RegisterLine[], name: string): readonly PublicKey[] =>
  lines
    .flatMap(line => (line.type === 'enrolled' && line.name === name ? line : []))
    .map(({ kid, key }) => ({ kid, jwk: key }))
    .toReversed();

export const enterScale = (workshop: Workshop, scale: Scale, by: string): Done =>
  enter(workshop, registerBook(workshop), by, () => {
    const { lastCheck: _, repeatability: __, ...stated } = scaleText(scale);
    return { ok: true, value: { type: 'scale-entered', ...stated } };
  });

/** An entry on a scale that is in use when it is made. */
const enterOfScale = (workshop: Workshop, name: string, by: string, entry: Entry): Done =>
  enter(workshop, registerBook(workshop), by, ({ lines }) => {
    return scalesOf(lines).some(each => each.name === name)
      ? { ok: true, value: entry }
      : { ok: false, why: `There is no scale ${quote(name)} in use.` };
  });

/** What a check of a scale came to, as the register keeps it. */
export interface ScaleCheckEntry {
  readonly loads: readonly TestLoad[];
  /** There when there are loads. */
  readonly verdict?: CheckVerdict;
  readonly repeat: readonly Mass[];
  /** There when there are readings. */
  readonly repeatability?: Mass;
}

export const enterScaleCheck = (
  workshop: Workshop,
  name: string,
  { loads, verdict, repeat, repeatability }: ScaleCheckEntry,
  by: string,
): Done =>
  enterOfScale(workshop, name, by, {
    type: 'scale-checked',
    name,
    ...(verdict && {
      loads: loads.map(({ masses, shown }) => ({
        masses: masses.map(({ nominal, massClass }) => ({ nominal: toExact(nominal), massClass })),
        shown: toExact(shown),
      })),
      verdict,
    }),
    ...(repeatability && {
      repeat: repeat.map(toExact),
      repeatability: toExact(repeatability),
    }),
  });

/** Takes a scale out of use: nothing is planned with it any more; what was weighed on it stays. */
export const retireScale = (workshop: Workshop, name: string, reason: string, by: string): Done =>
  enterOfScale(workshop, name, by, { type: 'scale-retired', name, reason });

/** Puts a person's public key on the register; the person answers for it. */
export const enterKey = (workshop: Workshop, name: string, { kid, jwk }: PublicKey): Done =>
  enter(workshop, registerBook(workshop), name, () => ({
    ok: true,
    value: { type: 'enrolled', name, kid, key: { kty: jwk.kty, crv: jwk.crv, x: jwk.x } },
  }));

import type { SizeWish } from '../core/plan/plan.ts';
import { readMass } from '../core/quantity/amount.ts';
import { readNumber } from '../core/quantity/decimal.ts';
import type { Mass } from '../core/quantity/quantity.ts';
import { isPositive } from '../core/quantity/quantity.ts';
import { usage } from './stop.ts';

export interface SizeOptions {
  readonly pieces?: string;
  readonly mass?: string;
  readonly factor?: string;
  readonly have?: readonly string[];
}

const readPieces = (text: string): SizeWish =>
  /^[1-9]\d{0,6}$/.test(text)
    ? { by: 'pieces', pieces: Number(text) }
    : usage(`--pieces takes a whole number, not ${text}.`);

const readMassOption = (option: string, text: string): Mass =>
  readMass(text) ?? usage(`${option} takes a mass with its unit, like 2.4 kg, not ${text}.`);

const readFactor = (text: string): SizeWish => {
  const factor = readNumber(text);
  return factor !== undefined && isPositive(factor)
    ? { by: 'factor', factor }
    : usage(`--factor takes a number above zero, like 3/2 or 1.5, not ${text}.`);
};

const readHave = (texts: readonly string[]): SizeWish => {
  const have = new Map<string, Mass>();
  for (const text of texts) {
    const [material, mass, ...others] = text.split('=');
    if (material === undefined || mass === undefined || others.length > 0) {
      return usage(`--have takes a material and its mass, like "citric acid=1.4 kg", not ${text}.`);
    }
    have.set(material.trim(), readMassOption('--have', mass));
  }
  return { by: 'have', have };
};

/** The size asked for on the command line; at most one of the options. Stops with status 2. */
export const readSizeOptions = ({ pieces, mass, factor, have }: SizeOptions): SizeWish => {
  const given = [pieces, mass, factor, have].filter(each => each !== undefined);
  if (given.length > 1) return usage('Take one of --pieces, --mass, --factor and --have.');
  if (pieces !== undefined) return readPieces(pieces);
  if (mass !== undefined) return { by: 'mass', mass: readMassOption('--mass', mass) };
  if (factor !== undefined) return readFactor(factor);
  return have === undefined ? { by: 'sheet' } : readHave(have);
};

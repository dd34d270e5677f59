/** Checks of values that came out of a file: exact members, nothing trusted before. */
import { readInstant } from '../../core/time/instant.ts';

export type Check = (value: unknown) => boolean;

export const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

export const text: Check = value => typeof value === 'string';
export const flag: Check = value => typeof value === 'boolean';
/** A whole number from 0 that a JSON number holds exactly. */
export const count: Check = value =>
  typeof value === 'number' && Number.isSafeInteger(value) && value >= 0;
export const matching =
  (pattern: RegExp): Check =>
  value =>
    typeof value === 'string' && pattern.test(value);
export const oneOf =
  (...words: readonly string[]): Check =>
  value =>
    typeof value === 'string' && words.includes(value);
export const listOf =
  (check: Check): Check =>
  value =>
    Array.isArray(value) && value.every(check);
export const listUpTo =
  (longest: number, check: Check): Check =>
  value =>
    Array.isArray(value) && value.length <= longest && value.every(check);
export const hash = matching(/^[0-9a-f]{64}$/);
/** 32 bytes in base64url: a key, or its thumbprint. */
export const keyId = matching(/^[\w-]{43}$/);
export const instant: Check = value =>
  typeof value === 'string' && readInstant(value) !== undefined;

export type Members = Readonly<Record<string, Check>>;

/** Exactly these members, and perhaps the optional ones; none besides. */
export const shape =
  (required: Members, optional: Members = {}): Check =>
  value =>
    isObject(value) &&
    Object.entries(required).every(
      ([key, check]) => Object.hasOwn(value, key) && check(value[key]),
    ) &&
    Object.keys(value).every(
      key =>
        Object.hasOwn(required, key) ||
        (Object.hasOwn(optional, key) && optional[key]?.(value[key]) === true),
    );

/** Reads JSON; undefined for anything that is none, or that is nested too deep to be read. */
export const readJson = (source: string): unknown => {
  try {
    return JSON.parse(source);
  } catch {
    return undefined;
  }
};

/** JSON text as `JSON.stringify` writes it; undefined for what is nested too deep to be written. */
export const jsonText = (value: unknown, indent?: number): string | undefined => {
  try {
    return JSON.stringify(value, null, indent);
  } catch {
    return undefined;
  }
};

/** Whether a file that was read to this value is in our one byte form: indented by two, a newline at the end. */
export const isWrittenAsOurs = (value: unknown, source: string): boolean =>
  `${jsonText(value, 2)}\n` === source;

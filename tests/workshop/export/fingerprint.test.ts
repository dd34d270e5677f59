import { expect, test } from 'vitest';
import { shortHash } from '../../../src/workshop/export/fingerprint.ts';

test('ten bytes are sixteen characters of base32', () => {
  // RFC 4648 section 10: BASE32("fooba") = "MZXW6YTB", twice.
  const hex = Buffer.from('foobafooba').toString('hex');
  expect(shortHash(hex + 'f'.repeat(44))).toBe('MZXW6YTBMZXW6YTB');
});

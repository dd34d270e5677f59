import { describe, expect, test } from 'vitest';
import {
  isSignedBy,
  readBase64url,
  readHeader,
  readSignatures,
  thumbprintOf,
} from '../../../src/workshop/verify/signature.ts';

// RFC 8037 appendix A: key (A.2), thumbprint (A.3), signing (A.4).
const key = {
  kty: 'OKP',
  crv: 'Ed25519',
  x: '11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo',
} as const;
const payload = Buffer.from('Example of Ed25519 signing');
const a4 = {
  protected: 'eyJhbGciOiJFZERTQSJ9',
  signature:
    'hgyY0il_MGCjP0JzlnLWG1PPOt7-09PGcvMg3AIbQR6dWbhijcNR4ki4iylGjg5BhVsPt9g7sVvpAr_MuM0KAg',
};

describe('RFC 8037', () => {
  test('the signature of A.4 is the key’s over header and payload', () => {
    expect(isSignedBy(a4, payload, key)).toBe(true);
  });

  test('any other payload, header, key or signature is not', () => {
    expect(isSignedBy(a4, Buffer.from('Example of Ed25519 Signing'), key)).toBe(false);
    expect(isSignedBy({ ...a4, protected: 'eyJhbGciOiJFZDI1NTE5In0' }, payload, key)).toBe(false);
    expect(isSignedBy(a4, payload, { ...key, x: key.x.replace('qYAY', 'qYAZ') })).toBe(false);
    expect(isSignedBy({ ...a4, signature: `i${a4.signature.slice(1)}` }, payload, key)).toBe(false);
  });

  test('the thumbprint of A.3 is the key’s', () => {
    expect(thumbprintOf(key)).toBe('kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k');
  });
});

test('the RFC 9864 name of the algorithm verifies too', () => {
  // The key and payload of RFC 8037 A.4 with {"alg":"Ed25519"}; Ed25519 is deterministic (RFC 8032).
  const entry = {
    protected: 'eyJhbGciOiJFZDI1NTE5In0',
    signature:
      'UxhIYLHGg39NVCLpQAVD_UcfOmnGSCzLFZoXYkLiIbFccmOb_qObsgjzLKsfJw-4NlccUgvYrEHrRbNV0HcZAQ',
  };
  expect(isSignedBy(entry, payload, key)).toBe(true);
});

const text = (entry: object): string => `${JSON.stringify({ signatures: [entry] }, null, 2)}\n`;

describe('strict spellings', () => {
  test.each(['QQ==', 'QR', 'Q', 'Q Q', 'QQ\n', 'Q+/A', ''.padEnd(85, '*')])(
    '%j is no base64url',
    text => {
      expect(readBase64url(text)).toBeUndefined();
    },
  );

  test('a signature whose S is not reduced is refused (RFC 8032 section 5.1.7)', () => {
    const bytes = Buffer.from(a4.signature, 'base64url');
    // The order of the base point, little-endian (RFC 8032 section 5.1).
    const order = 2n ** 252n + 27742317777372353535851937790883648493n;
    let s = BigInt(`0x${Buffer.from(bytes.subarray(32)).reverse().toString('hex')}`) + order;
    for (let n = 32; n < 64; n += 1, s >>= 8n) bytes[n] = Number(s & 255n);
    const malleable = { ...a4, signature: bytes.toString('base64url') };
    expect(isSignedBy(malleable, payload, key)).toBe(false);
  });

  test.each(['', 'e30', Buffer.from('null').toString('base64url'), a4.protected])(
    '%j is no header of ours',
    text => {
      expect(readHeader(text)).toBeUndefined();
    },
  );

  test('an entry has its two members only', () => {
    expect(readSignatures(text(a4))).toEqual([a4]);
    expect(readSignatures(text({ ...a4, header: {} }))).toBeUndefined();
    expect(readSignatures(text({ ...a4, signature: 1 }))).toBeUndefined();
    expect(readSignatures(JSON.stringify({ signatures: [a4] }))).toBeUndefined();
  });
});

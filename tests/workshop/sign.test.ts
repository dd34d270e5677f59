import { execFileSync } from 'node:child_process';
import { createPrivateKey, createPublicKey, verify } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { flattenedVerify } from 'jose';
import { describe, expect, test } from 'vitest';
import { recordType } from '../../src/core/result/record.ts';
import { publicPem } from '../../src/workshop/keys.ts';
import {
  formatSignatures,
  hashOfSignature,
  signBytes,
  signDetached,
  signRecord,
} from '../../src/workshop/sign.ts';
import { tempDir } from '../helpers/temp-dir.ts';

// RFC 8410 section 7: the bytes before the 32 of a raw Ed25519 key in PKCS#8.
const pkcs8 = '302e020100300506032b657004220420';
const keyFrom = (secret: string) =>
  createPrivateKey({ key: Buffer.from(pkcs8 + secret, 'hex'), format: 'der', type: 'pkcs8' });

// RFC 8032 section 7.1, TEST 1 to 3.
const rfc8032 = [
  {
    secret: '9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60',
    public: 'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a',
    message: '',
    signature:
      'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b',
  },
  {
    secret: '4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb',
    public: '3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c',
    message: '72',
    signature:
      '92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00',
  },
  {
    secret: 'c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7',
    public: 'fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025',
    message: 'af82',
    signature:
      '6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a',
  },
];

test.each(rfc8032)('signing gives the bytes of RFC 8032 for the message “$message”', vector => {
  const signature = signBytes(Buffer.from(vector.message, 'hex'), keyFrom(vector.secret));
  expect(signature.toString('hex')).toBe(vector.signature);
});

test.each(rfc8032)('the public key of RFC 8032 is exported for $public', vector => {
  const x = Buffer.from(vector.public, 'hex').toString('base64url');
  const exported = createPublicKey(publicPem({ kty: 'OKP', crv: 'Ed25519', x }));
  expect(exported.equals(createPublicKey(keyFrom(vector.secret)))).toBe(true);
});

describe('the JWS of RFC 8037 appendix A.4', () => {
  const key = keyFrom(rfc8032[0]!.secret);
  const payload = Buffer.from('Example of Ed25519 signing');

  test('comes out of our signing', () => {
    expect(signDetached({ alg: 'EdDSA' }, payload, key)).toEqual({
      protected: 'eyJhbGciOiJFZERTQSJ9',
      signature:
        'hgyY0il_MGCjP0JzlnLWG1PPOt7-09PGcvMg3AIbQR6dWbhijcNR4ki4iylGjg5BhVsPt9g7sVvpAr_MuM0KAg',
    });
  });

  test('comes out with the name of RFC 9864, as a public test file has it', () => {
    expect(signDetached({ alg: 'Ed25519' }, payload, key)).toEqual({
      protected: 'eyJhbGciOiJFZDI1NTE5In0',
      signature:
        'UxhIYLHGg39NVCLpQAVD_UcfOmnGSCzLFZoXYkLiIbFccmOb_qObsgjzLKsfJw-4NlccUgvYrEHrRbNV0HcZAQ',
    });
  });
});

describe('the signature of a record', () => {
  const key = keyFrom(rfc8032[0]!.secret);
  // Invented.
  const record = Buffer.from('{\n  "batch": "INV-2027-001"\n}\n');
  const entry = signRecord(
    record,
    {
      kid: 'kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k',
      signer: 'Ana Müller',
      meaning: 'made by',
      at: { epochMs: Date.UTC(2027, 2, 4, 8, 12, 33, 120), offset: 60 },
      ledger: { seq: 3, prev: 'ab'.repeat(32) },
    },
    key,
  );

  test('says what was signed, by whom, as what, when, and after which line of the ledger', () => {
    expect(Buffer.from(entry.protected, 'base64url').toString()).toBe(
      `{"alg":"Ed25519","typ":"${recordType.slice('application/'.length)}",` +
        '"kid":"kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k","signer":"Ana Müller","meaning":"made by",' +
        `"at":"2027-03-04T09:12:33.120+01:00","ledger":{"seq":3,"prev":"${'ab'.repeat(32)}"}}`,
    );
  });

  test('is verified by a JOSE library', async () => {
    const { payload } = await flattenedVerify(
      { ...entry, payload: record.toString('base64url') },
      createPublicKey(key),
      { algorithms: ['Ed25519'] },
    );
    expect(Buffer.from(payload)).toEqual(record);
  });

  test('is not verified by it for other bytes', async () => {
    const other = Buffer.from(record.toString().replace('001', '002')).toString('base64url');
    await expect(
      flattenedVerify({ ...entry, payload: other }, createPublicKey(key)),
    ).rejects.toMatchObject({ code: 'ERR_JWS_SIGNATURE_VERIFICATION_FAILED' });
  });

  test('is verified by openssl alone', () => {
    const folder = tempDir();
    const put = (name: string, bytes: string | Buffer): string => {
      writeFileSync(join(folder, name), bytes);
      return join(folder, name);
    };
    const pem = createPublicKey(key).export({ format: 'pem', type: 'spki' });
    const input = put('input', `${entry.protected}.${record.toString('base64url')}`);
    const signature = put('sig', Buffer.from(entry.signature, 'base64url'));
    const args = ['pkeyutl', '-verify', '-pubin', '-inkey', put('pem', pem), '-rawin'];
    const said = execFileSync('openssl', [...args, '-in', input, '-sigfile', signature]);
    expect(said.toString()).toContain('Verified Successfully');
  });

  test('stands in one byte form, and the ledger names it by its hash', () => {
    expect(formatSignatures([entry])).toBe(
      `{\n  "signatures": [\n    {\n      "protected": "${entry.protected}",\n      "signature": "${entry.signature}"\n    }\n  ]\n}\n`,
    );
    expect(hashOfSignature(entry)).toMatch(/^[0-9a-f]{64}$/);
  });

  test('covers header and payload: either one changed breaks it', () => {
    const check = (head: string, bytes: Buffer): boolean =>
      verify(
        null,
        Buffer.from(`${head}.${bytes.toString('base64url')}`),
        createPublicKey(key),
        Buffer.from(entry.signature, 'base64url'),
      );
    expect(check(entry.protected, record)).toBe(true);
    expect(check(`${entry.protected.slice(0, -1)}0`, record)).toBe(false);
    expect(check(entry.protected, record.subarray(1))).toBe(false);
  });
});

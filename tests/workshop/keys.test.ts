import { execFileSync } from 'node:child_process';
import { createPrivateKey, createPublicKey } from 'node:crypto';
import { chmodSync, readdirSync, readFileSync, renameSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { realDisk } from '../../src/workshop/disk.ts';
import { encryptKey } from '../../src/workshop/encrypt-key.ts';
import {
  keysHere,
  makeKey,
  openKey,
  type PublicKey,
  publicPem,
  thumbprint,
} from '../../src/workshop/keys.ts';
import { failingDisk, systemError } from '../helpers/failing-disk.ts';
import { tempDir } from '../helpers/temp-dir.ts';

// Invented, with what a keyboard may make of it.
const passphrase = 'zwei Löffel 🧂 "Salz"';

const folder = join(tempDir(), 'share', 'keys');
let key: PublicKey;
let file = '';

beforeAll(() => {
  const made = makeKey(realDisk, folder, passphrase);
  if (!made.ok) throw new Error(made.why);
  key = made.value;
  file = join(folder, `${key.kid}.pem`);
});

const openssl = (...args: readonly string[]): string =>
  execFileSync('openssl', args, { encoding: 'utf8', stdio: ['pipe', 'pipe', 'pipe'] });

test('the thumbprint is that of RFC 8037 appendix A.3', () => {
  expect(
    // RFC 8037 appendix A.1 and A.3.
    thumbprint({ kty: 'OKP', crv: 'Ed25519', x: '11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo' }),
  ).toBe('kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k');
});

describe('a key file', () => {
  test('is its owner’s alone, and named by its fingerprint', () => {
    expect(readdirSync(folder)).toEqual([`${key.kid}.pem`]);
    expect(statSync(file).mode & 0o777).toBe(0o600);
    expect(statSync(folder).mode & 0o777).toBe(0o700);
  });

  test('is opened by Node’s own reader', () => {
    const opened = createPrivateKey({ key: readFileSync(file), passphrase });
    expect(createPublicKey(opened).export({ format: 'jwk' })).toEqual(key.jwk);
  });

  test('is opened by openssl, and its public half is what we export', () => {
    const pem = openssl('pkey', '-in', file, '-passin', `pass:${passphrase}`, '-pubout');
    expect(pem).toBe(publicPem(key.jwk));
  });

  test('is encrypted with scrypt and AES, as openssl sees it', () => {
    const structure = openssl('asn1parse', '-in', file);
    // N = 16384, r = 8, p = 5, 32 bytes.
    for (const part of ['PBES2', 'scrypt', 'aes-256-cbc', ':4000', ':08', ':05', ':20']) {
      expect(structure).toContain(part);
    }
  });

  test('is not opened by openssl under another passphrase', () => {
    expect(() => openssl('pkey', '-in', file, '-passin', 'pass:other', '-noout')).toThrow();
  });

  test('differs each time, even for the same key and passphrase', () => {
    const opened = createPrivateKey({ key: readFileSync(file), passphrase });
    expect(encryptKey(opened, 'same')).not.toBe(encryptKey(opened, 'same'));
  });
});

describe('opening', () => {
  test('takes the same passphrase in another Unicode form', () => {
    expect(openKey(realDisk, folder, key, passphrase.normalize('NFD')).ok).toBe(true);
  });

  test('answers a wrong passphrase in a sentence', () => {
    for (const wrong of ['', 'zwei', `${passphrase} `, passphrase.toUpperCase()]) {
      expect(openKey(realDisk, folder, key, wrong)).toEqual({
        ok: false,
        why: 'This passphrase does not open the key. Type it again.',
      });
    }
  });

  test('says which file is missing', () => {
    const other = { ...key, kid: 'A'.repeat(43) };
    expect(openKey(realDisk, folder, other, passphrase)).toMatchObject({
      ok: false,
      why: expect.stringContaining(`${'A'.repeat(43)}.pem is missing`),
    });
  });

  test('refuses the file of another key', () => {
    const elsewhere = tempDir();
    const made = makeKey(realDisk, elsewhere, passphrase);
    if (!made.ok) throw new Error(made.why);
    renameSync(join(elsewhere, `${made.value.kid}.pem`), join(elsewhere, `${key.kid}.pem`));
    expect(openKey(realDisk, elsewhere, key, passphrase)).toMatchObject({
      ok: false,
      why: expect.stringContaining('holds another key'),
    });
  });

  test('refuses a file that is no key', () => {
    const elsewhere = tempDir();
    writeFileSync(join(elsewhere, `${key.kid}.pem`), 'no key');
    expect(openKey(realDisk, elsewhere, key, passphrase).ok).toBe(false);
  });
});

test('an empty or endless passphrase is refused before a key is made', () => {
  const empty = tempDir();
  expect(makeKey(realDisk, empty, '').ok).toBe(false);
  expect(makeKey(realDisk, empty, 'x'.repeat(201)).ok).toBe(false);
  expect(readdirSync(empty)).toEqual([]);
});

test('a folder that cannot be written is said', () => {
  const disk = failingDisk({
    open: () => {
      throw systemError('EACCES');
    },
  });
  expect(makeKey(disk, tempDir(), passphrase)).toEqual({
    ok: false,
    why: 'The key could not be written: you may not read or write there.',
  });
});

test('only keys whose file is in the folder are here', () => {
  const other = { ...key, kid: 'A'.repeat(43) };
  expect(keysHere(realDisk, folder, [other, key])).toEqual({ ok: true, value: [key] });
  expect(keysHere(realDisk, join(folder, 'none'), [key])).toEqual({ ok: true, value: [] });
});

test('the folder of keys keeps the mode that its owner gave it', () => {
  const own = tempDir();
  chmodSync(own, 0o750);
  expect(makeKey(realDisk, own, 'x').ok).toBe(true);
  expect(statSync(own).mode & 0o777).toBe(0o750);
});

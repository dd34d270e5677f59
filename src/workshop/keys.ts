/**
 * The private keys of people: Ed25519, one PKCS#8 file each, encrypted under a passphrase, in the
 * owner's own folder and never in the workshop.
 */
import {
  createHash,
  createPrivateKey,
  createPublicKey,
  generateKeyPairSync,
  type KeyObject,
} from 'node:crypto';
import { join } from 'node:path';
import type { Done } from '../core/dialogue/bench.ts';
import { type Disk, ensureFolder, listIfThere, readIfThere } from './disk.ts';
import { attempt } from './disk-error.ts';
import { encryptKey } from './encrypt-key.ts';
import { writeDurably } from './write-durably.ts';

/** RFC 8037 section 2. */
export interface PublicJwk {
  readonly kty: 'OKP';
  readonly crv: 'Ed25519';
  readonly x: string;
}

export interface PublicKey {
  /** Its thumbprint. */
  readonly kid: string;
  readonly jwk: PublicJwk;
}

/** Thumbprint of a key: SHA-256 of its members in alphabetical order, base64url (RFC 7638, RFC 8037 appendix A.3). */
export const thumbprint = ({ crv, kty, x }: PublicJwk): string =>
  createHash('sha256').update(JSON.stringify({ crv, kty, x })).digest('base64url');

const publicKeyOf = (key: KeyObject): PublicKey => {
  const { x = '' } = createPublicKey(key).export({ format: 'jwk' });
  const jwk: PublicJwk = { kty: 'OKP', crv: 'Ed25519', x };
  return { kid: thumbprint(jwk), jwk };
};

/** The public key as other programs take it: SPKI in PEM (RFC 8410). */
export const publicPem = ({ kty, crv, x }: PublicJwk): string =>
  createPublicKey({ format: 'jwk', key: { kty, crv, x } })
    .export({ format: 'pem', type: 'spki' })
    .toString();

const fileOf = (folder: string, kid: string): string => join(folder, `${kid}.pem`);

const longestPassphrase = 200;

// The same passphrase typed on two keyboards may arrive as different code points.
const normal = (passphrase: string): string => passphrase.normalize('NFC');

/** Makes a key and writes it under the passphrase: file mode 0600, a new folder 0700. */
export const makeKey = (disk: Disk, folder: string, passphrase: string): Done<PublicKey> => {
  if (passphrase === '' || passphrase.length > longestPassphrase) {
    return { ok: false, why: `A passphrase has 1 to ${longestPassphrase} characters.` };
  }
  const { privateKey } = generateKeyPairSync('ed25519');
  const publicKey = publicKeyOf(privateKey);
  return attempt('The key could not be written', () => {
    ensureFolder(disk, folder, 0o700);
    const pem = encryptKey(privateKey, normal(passphrase));
    writeDurably(disk, fileOf(folder, publicKey.kid), Buffer.from(pem), 0o600);
    return publicKey;
  });
};

/** Which of the keys have their private half in the folder. */
export const keysHere = (
  disk: Disk,
  folder: string,
  keys: readonly PublicKey[],
): Done<readonly PublicKey[]> =>
  attempt('The folder of keys could not be read', () => {
    const names = new Set(listIfThere(disk, folder));
    return keys.filter(({ kid }) => names.has(`${kid}.pem`));
  });

const tryToOpen = (pem: Buffer, passphrase: string): KeyObject | undefined => {
  try {
    return createPrivateKey({ key: pem, format: 'pem', passphrase: normal(passphrase) });
  } catch {
    return undefined;
  }
};

/** Opens a private key; a wrong passphrase, a damaged file and the file of another key are refused. */
export const openKey = (
  disk: Disk,
  folder: string,
  { kid }: PublicKey,
  passphrase: string,
): Done<KeyObject> => {
  const path = fileOf(folder, kid);
  const pem = attempt('The key could not be read', () => readIfThere(disk, path));
  if (!pem.ok) return pem;
  if (pem.value === undefined) {
    return { ok: false, why: `The key is not on this computer: ${path} is missing.` };
  }
  const key = tryToOpen(pem.value, passphrase);
  if (key === undefined) {
    return { ok: false, why: 'This passphrase does not open the key. Type it again.' };
  }
  return key.asymmetricKeyType === 'ed25519' && publicKeyOf(key).kid === kid
    ? { ok: true, value: key }
    : { ok: false, why: `${path} holds another key than its name says.` };
};

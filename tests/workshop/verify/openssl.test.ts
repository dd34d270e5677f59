import { spawnSync } from 'node:child_process';
import { createPublicKey } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { writeWorkshop } from '../../helpers/record.ts';
import { tempDir } from '../../helpers/temp-dir.ts';

/** The README's commands, word for word. */
const recipe = `set -eu
# Who signed, what it means, with which key (kid):
jq '.signatures[0].protected | gsub("-"; "+") | gsub("_"; "/") | @base64d | fromjson' record.sig.json

# What was signed is the header, a full stop and the record itself:
printf %s. "$(jq -r '.signatures[0].protected' record.sig.json)" > input
basenc --base64url -w0 record.json | tr -d = >> input
printf %s== "$(jq -r '.signatures[0].signature' record.sig.json)" | basenc --base64url -d > sig
openssl pkeyutl -verify -pubin -inkey key.pem -rawin -in input -sigfile sig
`;

/** Makes key.pem of a person from the register: an Ed25519 public key is twelve fixed bytes and its x (RFC 8410). */
const keyRecipe = `set -eu
{ printf '\\060\\052\\060\\005\\006\\003\\053\\145\\160\\003\\041\\000'
  printf %s= "$(jq -r 'select(.type == "enrolled" and .name == "Ada") | .key.x' register.jsonl)" | basenc --base64url -d
} | openssl pkey -pubin -inform DER -out key.pem
`;

const isThere = (tool: string): boolean => spawnSync(tool, ['--help']).error === undefined;
const missing = ['openssl', 'jq', 'basenc'].filter(tool => !isThere(tool));

const folderWith = (): { folder: string; pem: string } => {
  const { path, signer } = writeWorkshop();
  const folder = tempDir();
  for (const name of ['record.json', 'record.sig.json', 'register.jsonl']) {
    writeFileSync(join(folder, name), readFileSync(path(name)));
  }
  const jwk = { kty: 'OKP', crv: 'Ed25519', x: signer.x };
  const pem = createPublicKey({ format: 'jwk', key: jwk }).export({ format: 'pem', type: 'spki' });
  return { folder, pem: pem.toString() };
};

const run = (script: string, folder: string) =>
  spawnSync('sh', ['-c', script], { cwd: folder, encoding: 'utf8' });

describe.skipIf(missing.length > 0)(
  `a signature checked with openssl, jq and coreutils alone${missing.length > 0 ? ` (missing here: ${missing.join(', ')})` : ''}`,
  () => {
    test('holds, and says who signed', () => {
      const { folder, pem } = folderWith();
      writeFileSync(join(folder, 'key.pem'), pem);
      const { status, stdout } = run(recipe, folder);
      expect(stdout).toContain('Signature Verified Successfully');
      expect(stdout).toContain('"meaning": "made by"');
      expect(status).toBe(0);
    });

    test('fails when one byte of the record is changed', () => {
      const { folder, pem } = folderWith();
      writeFileSync(join(folder, 'key.pem'), pem);
      const record = readFileSync(join(folder, 'record.json'), 'utf8');
      writeFileSync(join(folder, 'record.json'), record.replace('"600"', '"601"'));
      expect(run(recipe, folder).status).not.toBe(0);
    });

    test('works with the key as the register has it', () => {
      const { folder, pem } = folderWith();
      expect(run(keyRecipe, folder)).toMatchObject({ status: 0 });
      expect(readFileSync(join(folder, 'key.pem'), 'utf8')).toBe(pem);
      expect(run(recipe, folder).status).toBe(0);
    });
  },
);

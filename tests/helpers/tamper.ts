import { readFileSync, writeFileSync } from 'node:fs';
import { verifyBatch } from '../../src/workshop/verify/verify-batch.ts';
import { chain, type Json, type Written } from './record.ts';

/** What does not hold of a batch, or is not finished: `claim: code`. */
export const notHolding = (folder: string): string[] =>
  verifyBatch(folder)
    .claims.filter(each => each.state === 'fails' || each.state === 'unfinished')
    .map(each => `${each.claim}: ${each.code}`);

export const statusOf = (folder: string): number => verifyBatch(folder).status;

export const edit = ({ path }: Written, name: string, change: (text: string) => string): void =>
  writeFileSync(path(name), change(readFileSync(path(name), 'utf8')));

export const linesOf = (text: string): string[] => text.split('\n').slice(0, -1);
export const joined = (lines: readonly string[]): string => lines.map(line => `${line}\n`).join('');

/** Writes a chained file anew with other lines, every hash right. */
export const rechain = (written: Written, name: string, change: (lines: Json[]) => Json[]): void =>
  edit(written, name, text => {
    const bodies = linesOf(text).map(line => {
      const { hash: _hash, ...body } = JSON.parse(line) as Json;
      return body;
    });
    return chain(change(bodies)).text;
  });

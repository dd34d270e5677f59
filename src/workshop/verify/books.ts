/** The ledger and the register of a workshop, or of its practice room, read without trusting them. */
import { join } from 'node:path';
import { readChain } from './chain.ts';
import { type Claim, fails, holds, unfinished } from './claim.ts';
import {
  type AddendumLine,
  accuracyClasses,
  addendumKinds,
  type ChainedLine,
  type ClosedLine,
  checkVerdicts,
  type EnrolledLine,
  fileNames,
  meanings,
  type SignedLine,
} from './formats.ts';
import { readBounded } from './read-bounded.ts';
import {
  type Check,
  count,
  hash,
  keyId,
  listOf,
  type Members,
  oneOf,
  shape,
  text,
} from './shape.ts';
import { thumbprintOf } from './signature.ts';

type LedgerLine = ClosedLine | SignedLine | AddendumLine;

export interface Books {
  readonly claims: readonly Claim[];
  readonly ledger: readonly LedgerLine[];
  /** The same by batch: each is asked for several times. */
  readonly byBatch: ReadonlyMap<string, readonly LedgerLine[]>;
  readonly keys: readonly EnrolledLine[];
}

const meaning = oneOf(...meanings);

const line = (members: Members, optional: Members = {}): Check =>
  shape({ seq: count, at: text, by: text, type: text, hash, ...members }, optional);

const closed = line({ batch: text, record: hash, journal: hash });
const signed = line({ batch: text, signature: hash, signer: text, kid: keyId, meaning });
const addendum = line(
  {
    batch: text,
    n: count,
    kind: oneOf(...addendumKinds),
    addendum: hash,
    signature: hash,
    signer: text,
    kid: keyId,
  },
  { refers: count },
);
const enrolled = line({
  name: text,
  kid: keyId,
  key: shape({ kty: oneOf('OKP'), crv: oneOf('Ed25519'), x: keyId }),
});
const accuracyClass = oneOf(...accuracyClasses);
const verdict = oneOf(...checkVerdicts);
const testMass = shape({ nominal: text, massClass: oneOf('F1', 'F2', 'M1', 'M2') });
const testLoad = shape({ masses: listOf(testMass), shown: text });
const ofScale: Members = {
  'scale-entered': line(
    { name: text, capacity: text, readability: text, unit: text },
    { interval: text, accuracyClass, leastLoad: text },
  ),
  'scale-checked': line(
    { name: text },
    { loads: listOf(testLoad), verdict, repeat: listOf(text), repeatability: text },
  ),
  'scale-retired': line({ name: text, reason: text }),
};

const isClosed = (value: ChainedLine): value is ClosedLine =>
  value.type === 'closed' && closed(value);
const isSigned = (value: ChainedLine): value is SignedLine =>
  value.type === 'signed' && signed(value);
const isAddendum = (value: ChainedLine): value is AddendumLine =>
  value.type === 'addendum' && addendum(value);
const isEnrolled = (value: ChainedLine): value is EnrolledLine =>
  value.type === 'enrolled' && enrolled(value);

type BookName = 'ledger' | 'register';

interface Read {
  readonly lines: readonly ChainedLine[];
  readonly claim: Claim;
}

const readBook = (room: string, name: BookName): Read => {
  const file = fileNames[name];
  const read = readBounded(join(room, file));
  if (read.kind === 'unreadable') {
    return { lines: [], claim: fails(name, 'unreadable', `${file} cannot be read: ${read.why}.`) };
  }
  if (read.kind === 'missing') {
    return { lines: [], claim: holds(name, `There is no ${file} yet, so nothing can be in it.`) };
  }
  const chain = readChain(read.bytes);
  if (!chain.ok) {
    return {
      lines: [],
      claim: fails(name, chain.code, `Line ${chain.line} of ${file} ${chain.text}.`),
    };
  }
  const { lines, isTorn } = chain;
  const claim = isTorn
    ? unfinished(name, 'torn', `The last line of ${file} was cut off; the next entry mends it.`)
    : holds(name, `All ${lines.length} lines of ${file} follow from each other.`);
  return { lines, claim };
};

const unknownIn = (
  name: BookName,
  { lines, claim }: Read,
  isKnown: (line: ChainedLine) => boolean,
): Claim => {
  const stranger = lines.find(each => !isKnown(each));
  return stranger === undefined
    ? claim
    : fails(
        name,
        'unknown-line',
        `Line ${stranger.seq} of ${fileNames[name]} is none that this version knows.`,
      );
};

const isEntry = (line: ChainedLine): line is LedgerLine =>
  isClosed(line) || isSigned(line) || isAddendum(line);
const isSound = (line: ChainedLine): boolean =>
  Object.hasOwn(ofScale, line.type)
    ? ofScale[line.type]?.(line) === true
    : isEnrolled(line) && thumbprintOf(line.key) === line.kid;

const groupedByBatch = (lines: readonly LedgerLine[]): Books['byBatch'] => {
  const groups = new Map<string, LedgerLine[]>();
  for (const line of lines) {
    const group = groups.get(line.batch);
    if (group === undefined) groups.set(line.batch, [line]);
    else group.push(line);
  }
  return groups;
};

/** Reads both books of the folder that holds `batches`. */
export const readBooks = (room: string): Books => {
  const ledger = readBook(room, 'ledger');
  const register = readBook(room, 'register');
  const entries = ledger.lines.filter(isEntry);
  return {
    claims: [unknownIn('ledger', ledger, isEntry), unknownIn('register', register, isSound)],
    ledger: entries,
    byBatch: groupedByBatch(entries),
    keys: register.lines.filter(isEnrolled),
  };
};

const linesOf = ({ byBatch }: Books, batch: string): readonly LedgerLine[] =>
  byBatch.get(batch) ?? [];

export const closedLinesOf = (books: Books, batch: string): readonly ClosedLine[] =>
  linesOf(books, batch).filter(each => each.type === 'closed');

export const signedLinesOf = (books: Books, batch: string): readonly SignedLine[] =>
  linesOf(books, batch).filter(each => each.type === 'signed');

export const addendumLinesOf = (books: Books, batch: string): readonly AddendumLine[] =>
  linesOf(books, batch).filter(each => each.type === 'addendum');

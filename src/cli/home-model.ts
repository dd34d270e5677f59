import type { HomeBatch, HomeModel, HomeRecord } from '../core/dialogue/home.ts';
import { type BatchClosed, type BatchInHand, type Home, readHome } from '../workshop/home.ts';
import { sheetsHere } from './sheets-here.ts';
import { orStop, theWorkshop, type WorkshopOptions } from './the-workshop.ts';

const inHand = (practice: boolean, each: BatchInHand): HomeBatch => ({
  batch: each.batch,
  practice,
  where: `${each.sheet}, ${each.isPaused ? 'paused at ' : ''}step ${each.step} of ${each.steps}, ${each.person}`,
});

const closed = (
  practice: boolean,
  { batch, closed: at, signatures, decision }: BatchClosed,
): HomeRecord => ({
  batch,
  practice,
  state: [
    `closed ${at.slice(0, 10)}`,
    ...(decision === undefined ? [] : [decision]),
    ...(signatures.length === 0
      ? ['not signed yet']
      : signatures.map(({ meaning, signer }) => `${meaning} ${signer}`)),
  ].join(', '),
});

const unfinished = (practice: boolean, batch: string): HomeBatch => ({
  batch,
  practice,
  where: 'closing unfinished',
});

const booksOf = (practice: boolean, home: Home): Omit<HomeModel, 'sheets'> => ({
  inHand: [
    ...home.inHand.map(each => inHand(practice, each)),
    ...home.unfinished.map(batch => unfinished(practice, batch)),
  ],
  closed: home.closed.map(each => closed(practice, each)),
  unreadable: home.unreadable,
});

/** What is here: the real books first, then practice. */
export const homeModel = (options: WorkshopOptions): HomeModel => {
  const room = (practice: boolean) =>
    booksOf(practice, orStop(readHome(theWorkshop(options, practice))));
  const real = room(false);
  const practice = room(true);
  return {
    sheets: sheetsHere(process.cwd()),
    inHand: [...real.inHand, ...practice.inHand],
    closed: [...real.closed, ...practice.closed],
    unreadable: [...real.unreadable, ...practice.unreadable],
  };
};

/** Over-pours: what was asked about the reading, what could be done, and what was. */
import { readNumber, toDecimal, toExact } from '../../core/quantity/decimal.ts';
import { one, ratio, subtract, times } from '../../core/quantity/quantity.ts';
import type { AdditionText } from '../../core/result/record.ts';
import { massFrom } from '../../core/run/mass-text.ts';
import type { LineMassText, RemedyText } from '../../core/run/remedy-event.ts';
import type { Entry, EntryOf } from '../verify/recompute/entry.ts';
import { html, type Markup } from './markup.ts';
import { nameOf, placesOn, type RecordView, showInstant, showMass } from './show-record.ts';
import { type Additions, additionsAt, totalsBefore } from './sizes.ts';
import { stepTitle } from './step-title.ts';

const titles: Readonly<Record<RemedyText['kind'], string>> = {
  'take-back': 'Take back',
  'least-stretch': 'Least stretch',
  'whole-pieces': 'Whole pieces',
  'exact-proportion': 'Exact proportion',
  accept: 'Accept as a deviation',
  scrap: 'Scrap',
};

const reasons: Readonly<Record<string, string>> = {
  'nothing-over': 'nothing was over its window',
  'in-window': 'all that was poured was in its window',
  'added-since': 'something else had gone into the vessel, or was done in it',
  'vessel-closed': 'its vessel was emptied already',
  'pieces-fixed': 'a phase that was closed had fixed the number of pieces',
  'no-room': 'a line had no room for a top-up that can be poured',
  'no-size': 'no larger batch brings every line into its window',
  limit: 'it would have broken a limit of the sheet',
  'vessel-full': 'a vessel would have overflowed',
  'stock-short': 'there was not enough of a material',
  'scale-unfit': 'a top-up could not be weighed on its scale',
};

const slips: Readonly<Record<string, string>> = {
  'last-again': 'the reading before, once more',
  'not-zeroed': 'the scale not zeroed before',
  'not-tared': 'the scale not tared',
  'ounces-grams': 'ounces and grams exchanged',
  'kilograms-grams': 'kilograms and grams exchanged',
  'point-off': 'the point one place off',
  'digits-swapped': 'two digits swapped',
};

const inWords = (words: Readonly<Record<string, string>>, code: string): string =>
  words[code] ?? code;

const additionNumbered = (additions: Additions, n: number): AdditionText | undefined =>
  [...additions.values()].find(each => each.n === n);

const massesText = (
  view: RecordView,
  additions: Additions,
  masses: readonly LineMassText[],
): string =>
  masses
    .map(({ n, mass }) => {
      const addition = additionNumbered(additions, n);
      const places = addition === undefined ? 0 : placesOn(view, addition.scale);
      return `${addition === undefined ? n : nameOf(view, addition.material)} ${showMass(mass, places)}`;
    })
    .join(', ');

const bigger = (stretch: string): string => {
  const more = times(subtract(readNumber(stretch) ?? one, one), ratio(100n));
  return more.num === 0n ? '' : `${toDecimal(more, 2, 'half-even')} % bigger (× ${stretch}), `;
};

const sizeText = (view: RecordView, { stretch, batchMass, pieces }: RemedyText): string =>
  `${bigger(stretch ?? '1')}${showMass(batchMass ?? '0')}, ${pieces ?? 0} × ${view.sheet.makes.piece}`;

const detail = (what: string, text: string | undefined): Markup | undefined =>
  text === undefined || text === '' ? undefined : html`<div class="small">${what}: ${text}</div>`;

const offeredText = (view: RecordView, additions: Additions, remedy: RemedyText): Markup => {
  const { kind, topUps = [], targets = [], surplus = [], forcedBy, batchMass = '0' } = remedy;
  if (kind === 'scrap') return html`${showMass(batchMass)} are used up`;
  const toSpare = surplus.map(({ phase, mass }) => `${phase} ${showMass(mass)}`).join(', ');
  return html`${sizeText(view, remedy)}
${detail('top up', massesText(view, additions, topUps))}
${detail('to be in', massesText(view, additions, targets))}
${detail('to spare', toSpare)}
${detail('less would not do', forcedBy && inWords(reasons, forcedBy))}`;
};

const remedyRow = (
  view: RecordView,
  additions: Additions,
  remedy: RemedyText,
  chosen: RemedyText['kind'] | undefined,
): Markup => {
  const mark = remedy.kind === chosen ? 'CHOSEN' : '';
  const { possible, reason = '', stretch = '1/1' } = remedy;
  const text = possible
    ? offeredText(view, additions, remedy)
    : html`not possible: ${inWords(reasons, reason)}${stretch === '1/1' ? '' : ` (× ${stretch})`}`;
  return html`<tr><th scope="row">${titles[remedy.kind]}</th><td>${text}</td><td class="mark">${mark}</td></tr>`;
};

const chosenBy = (decision: Entry | undefined): RemedyText['kind'] | undefined => {
  if (decision?.type === 'remedy-chosen') return decision.kind;
  if (decision?.type === 'taken-back') return 'take-back';
  if (decision?.type === 'closed') return 'scrap';
  return decision?.type === 'accepted' ? 'accept' : undefined;
};

const decidedText = (decision: Entry | undefined): string | undefined => {
  const kind = chosenBy(decision);
  if (decision === undefined || kind === undefined) return undefined;
  const reason =
    'reason' in decision && decision.reason !== undefined ? `: ${decision.reason}` : '';
  return `${titles[kind]}, chosen by ${decision.by}, ${showInstant(decision.at)}${reason}`;
};

const changedRow = (view: RecordView, before: AdditionText, after: AdditionText): Markup => {
  const places = placesOn(view, before.scale);
  const shown = ({ target, low, high }: AdditionText): string =>
    `${showMass(target, places)} (${showMass(low, places)} to ${showMass(high, places)})`;
  return html`<tr><th scope="row">${stepTitle(view, before.step)}</th><td>${shown(before)}</td><td>${shown(after)}</td></tr>`;
};

const changes = (view: RecordView, before: Additions, after: Additions): Markup => {
  const rows = [...before].flatMap(([step, was]) => {
    const is = after.get(step);
    return is === undefined || is === was ? [] : [changedRow(view, was, is)];
  });
  return html`<table><thead><tr><th>Addition</th><th>Target and window before</th><th>After</th></tr></thead>
<tbody>${rows}</tbody></table>`;
};

/** An offer, with the reading before it and the decision after it. */
interface OverPour {
  readonly offer: EntryOf<'remedies-offered'>;
  readonly total: string;
  readonly decision: Entry | undefined;
  readonly isLeft: boolean;
}

const isLeft = ({ entries }: RecordView, chosen: Entry): boolean => {
  const next = entries.find(
    each => each.seq > chosen.seq && (each.type === 'remedy-left' || each.type === 'remedy-chosen'),
  );
  return chosen.type === 'remedy-chosen' && next?.type === 'remedy-left';
};

const overPours = (view: RecordView): readonly OverPour[] =>
  view.entries.flatMap((offer, index) => {
    if (offer.type !== 'remedies-offered') return [];
    const decision = view.entries[index + 1];
    return [
      {
        offer,
        total: totalsBefore(view, offer.seq).get(offer.step) ?? '0',
        decision,
        isLeft: decision !== undefined && isLeft(view, decision),
      },
    ];
  });

const overPourBlock = (
  view: RecordView,
  at: (seq: number) => Additions,
  { offer, total, decision, isLeft }: OverPour,
): Markup => {
  const before = at(offer.seq);
  const line = before.get(offer.step);
  const places = line === undefined ? 0 : placesOn(view, line.scale);
  const beyond = line && toExact(subtract(massFrom(total), massFrom(line.target)));
  const chosen = chosenBy(decision);
  return html`<section class="addition"><header><h3>${stepTitle(view, offer.step)}</h3><span class="small">${showInstant(offer.at)}</span></header>
<p class="sum"><b>${showMass(total, places)}</b> in${line && html`; target ${showMass(line.target, places)}, accepted up to ${showMass(line.high, places)}: ${showMass(beyond ?? '0', places)} above the target`}</p>
<table><thead><tr><th>What could be done</th><th>What would come of it</th><th></th></tr></thead>
<tbody>${offer.remedies.map(each => remedyRow(view, before, each, chosen))}</tbody></table>
<p><b>${decidedText(decision)}</b>${isLeft ? ' – left again before anything was poured for it: all targets stayed.' : ''}</p>
${decision?.type === 'remedy-chosen' && !isLeft ? changes(view, before, at(decision.seq)) : undefined}</section>`;
};

const slipRow = (view: RecordView, entry: EntryOf<'slip-answered'>): Markup => {
  const about = view.entries.find(each => each.seq === entry.about);
  const typed = about !== undefined && 'reading' in about ? about.reading : undefined;
  return html`<tr><th scope="row">${stepTitle(view, entry.step)}</th><td>${typed && `${typed.typed} on ${typed.scale}`}</td>
<td>${inWords(slips, entry.slip)}?</td><td><b>${entry.answer}</b></td><td class="small">${entry.by}<br>${showInstant(entry.at)}</td></tr>`;
};

const slipsTable = (view: RecordView): Markup | undefined => {
  const answered = view.entries.filter(each => each.type === 'slip-answered');
  return answered.length === 0
    ? undefined
    : html`<h2>Readings asked about</h2>
<table><thead><tr><th>Step</th><th>Read</th><th>Read wrongly?</th><th>Answer</th><th>By, at</th></tr></thead>
<tbody>${answered.map(each => slipRow(view, each))}</tbody></table>`;
};

export const overPoursSection = (view: RecordView): Markup => {
  const found = overPours(view);
  const at = additionsAt(view);
  const blocks = found.map(each => overPourBlock(view, at, each));
  return html`${found.length === 0 ? undefined : html`<h2>Over-pours: ${found.length}</h2>`}${blocks}${slipsTable(view)}`;
};

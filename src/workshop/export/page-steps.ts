/** The walk through the sheet: each addition with its readings, each other step with what was done. */
import { showDuration } from '../../core/quantity/show.ts';
import type { AdditionText } from '../../core/result/record.ts';
import type { Part, Way } from '../../core/run/event.ts';
import { isCount } from '../../core/run/read-tally.ts';
import type { Entry, EntryOf } from '../verify/recompute/entry.ts';
import { gauge } from './gauge.ts';
import { html, type Markup } from './markup.ts';
import { placesOn, type RecordView, showInstant, showMass } from './show-record.ts';
import { type Additions, additionsAt } from './sizes.ts';
import { stepsOf, stepTitle } from './step-title.ts';
import { additionUncertainty } from './uncertainty.ts';

const who = ({ by, at }: Entry): Markup =>
  html`<td class="small when">${showInstant(at)}<br>${by}</td>`;

const ways: Readonly<Record<Way, string>> = {
  net: 'net',
  gross: 'gross',
  cup: 'in a cup',
  difference: 'by difference',
};
const parts: Readonly<Record<Part, string>> = {
  display: '',
  residue: ', the cup put back',
  before: ', the container before',
  after: ', the container after',
};
const verdicts = { under: 'under', in: 'in', over: 'OVER' } as const;
const outcomes = {
  under: 'UNDER its window',
  in: 'in its window',
  over: 'OVER its window',
} as const;

type Reading = EntryOf<'reading-taken'> | EntryOf<'taken-back'> | EntryOf<'amended'>;

const readingText = (entry: Reading): string => {
  if (entry.type === 'amended') return `Mistyped, put right (${entry.reason})`;
  if (entry.type === 'taken-back')
    return `Taken back ${showMass(entry.lifted)}, ${ways[entry.way]}`;
  return ways[entry.way] + parts[entry.part];
};

const unitIn = (typed: string, unit: string): string =>
  /\p{L}/u.test(typed) ? typed : `${typed} ${unit}`;

const readingRow = (addition: AdditionText, entry: Reading, places: number): Markup => {
  const { reading, judged } = entry;
  return html`<tr>${who(entry)}<td>${readingText(entry)}<br><span class="small">${reading.scale}</span></td>
<td class="n"><b>${unitIn(reading.typed, reading.unit)}</b></td>
<td class="n">${judged && showMass(judged.total, places)}</td>
<td class="mark">${judged && verdicts[judged.verdict]}</td>
<td>${judged && gauge(addition, judged.total, judged.verdict)}</td></tr>`;
};

const stretchRow = (addition: AdditionText, entry: Entry, places: number): Markup => {
  const shown = (mass: string): string => showMass(mass, places);
  const says = entry.type === 'remedy-left' ? 'The size before again' : 'The batch got bigger';
  return otherRow(
    entry,
    `${says}: target ${shown(addition.target)}; accepted ${shown(addition.low)} to ${shown(addition.high)}`,
  );
};

const otherRow = (entry: Entry, text: string): Markup =>
  html`<tr>${who(entry)}<td colspan="5">${text}</td></tr>`;

/** What stands with an addition and with any other step in the same words. */
const sharedText = (entry: Entry): string | undefined => {
  switch (entry.type) {
    case 'lot-identified':
      return `Lot ${entry.lot}`;
    case 'accepted':
      return `Accepted (${entry.what}): ${entry.reason}`;
    case 'unwitnessed':
      return `Not witnessed: ${entry.reason}`;
    case 'witnessed':
      return `Witnessed by ${entry.witness}`;
    case 'noted':
      return `Note: ${entry.text}`;
    default:
      return undefined;
  }
};

const additionRow = (addition: AdditionText, entry: Entry, places: number): Markup | undefined => {
  switch (entry.type) {
    case 'reading-taken':
    case 'taken-back':
    case 'amended':
      return readingRow(addition, entry, places);
    case 'remedy-chosen':
    case 'remedy-left':
      return stretchRow(addition, entry, places);
    case 'slip-answered':
      return otherRow(entry, `Asked whether it was read wrongly: ${entry.answer}`);
    case 'tared':
      return otherRow(entry, 'Scale tared');
    case 'put-later':
      return otherRow(entry, 'Put later');
    default: {
      const text = sharedText(entry);
      return text === undefined ? undefined : otherRow(entry, text);
    }
  }
};

const ofStep = ({ entries }: RecordView, n: number): readonly Entry[] =>
  entries.filter(entry => 'step' in entry && entry.step === n);

/** The events of an addition, each with its target and window as they were then; changes of size too. */
const linesOf = (
  view: RecordView,
  { step }: AdditionText,
  at: (seq: number) => Additions,
): readonly (readonly [AdditionText, Entry])[] =>
  view.entries.flatMap((entry, index) => {
    const [before, now] = [
      at((view.entries[index - 1] ?? entry).seq).get(step),
      at(entry.seq).get(step),
    ];
    const isResized = entry.type === 'remedy-chosen' || entry.type === 'remedy-left';
    const isOwn = 'step' in entry && entry.step === step;
    return now !== undefined && (isResized ? now !== before : isOwn) ? [[now, entry] as const] : [];
  });

const additionBlock = (
  view: RecordView,
  addition: AdditionText,
  at: (seq: number) => Additions,
): Markup => {
  const found = view.record.result.additions.find(each => each.step === addition.step);
  const several = addition.weighings > 1 ? `, in ${addition.weighings} weighings` : '';
  const verdict = found?.verdict === undefined ? 'not weighed' : outcomes[found.verdict];
  const places = placesOn(view, addition.scale);
  const shown = (mass: string): string => showMass(mass, places);
  return html`<section class="addition">
<header><h3>${stepTitle(view, addition.step)}</h3><span>net <b>${shown(found?.net ?? '0')}</b> <span class="small">${additionUncertainty(view, addition)}</span>, <span class="mark">${verdict}</span></span></header>
<p class="sum small">Target ${shown(addition.target)}; accepted ${shown(addition.low)} to ${shown(addition.high)}, on ${addition.scale}${several}</p>
<table class="readings"><colgroup><col class="c-when"><col><col class="c-mass"><col class="c-mass"><col class="c-mark"><col class="c-gauge"></colgroup><thead><tr><th>At, by</th><th>Read</th><th class="n">Display</th><th class="n">Total net</th><th></th><th>In its window</th></tr></thead>
<tbody>${linesOf(view, addition, at).map(([now, entry]) => additionRow(now, entry, places))}</tbody></table></section>`;
};

const tallyText = ({ item, value, reason }: EntryOf<'tallied'>): string => {
  const named = item === 'weight' ? 'Piece' : item.slice(0, 1).toUpperCase() + item.slice(1);
  return `${named}: ${isCount(item) ? value : showMass(value)}${reason === undefined ? '' : ` (${reason})`}`;
};

const because = (reason: string | undefined): string => (reason === undefined ? '' : `: ${reason}`);

const measuredText = (view: RecordView, entry: EntryOf<'measured'>): string => {
  const step = stepsOf(view)[entry.step - 1]?.step;
  const unit = step?.kind === 'measure' ? ` ${step.unit}` : '';
  return `${entry.value}${unit}, ${entry.verdict === 'in' ? 'in limits' : `${entry.verdict} its limit`}`;
};

const doneText = (view: RecordView, entry: Entry): string | undefined => {
  switch (entry.type) {
    case 'ticked':
      return 'Done';
    case 'hold-started':
      return 'Wait begun';
    case 'hold-ended':
      return `Wait ended, ${entry.verdict}${because(entry.reason)}`;
    case 'measured':
      return measuredText(view, entry);
    case 'adjusted':
      return `${entry.typed} = ${showMass(entry.mass)}${entry.lot === undefined ? '' : `, lot ${entry.lot}`}`;
    case 'adjust-finished':
      return `Finished, ${showMass(entry.total)} in all${because(entry.reason)}`;
    case 'tallied':
      return tallyText(entry);
    default:
      return sharedText(entry);
  }
};

const plannedText = (view: RecordView, n: number): string => {
  const step = stepsOf(view)[n - 1]?.step;
  if (step?.kind === 'hold') {
    const most = step.most === undefined ? '' : ` to ${showDuration(step.most)}`;
    return `${showDuration(step.least)}${most}`;
  }
  return step?.kind === 'adjust' ? `at most ${step.most.typed} at the sheet’s own size` : '';
};

const plainRow = (view: RecordView, n: number): Markup => {
  const done = ofStep(view, n);
  const lines = done.map(entry => {
    const text = doneText(view, entry);
    return (
      text &&
      html`<div>${text} <span class="small">${showInstant(entry.at)}, ${entry.by}</span></div>`
    );
  });
  return html`<tr><th scope="row">${stepTitle(view, n)}<br><span class="small">${plannedText(view, n)}</span></th>
<td>${lines.length === 0 ? 'not done' : lines}</td></tr>`;
};

export const additionsSection = (view: RecordView): Markup => {
  const at = additionsAt(view);
  return html`<h2>Additions</h2>${view.record.plan.additions.map(each => additionBlock(view, each, at))}`;
};

export const stepsSection = (view: RecordView): Markup => {
  const numbers = stepsOf(view).flatMap(({ step }, index) =>
    step.kind === 'add' ? [] : [index + 1],
  );
  return html`<h2>Other steps</h2><table><thead><tr><th>Step</th><th>What was done</th></tr></thead>
<tbody>${numbers.map(n => plainRow(view, n))}</tbody></table>`;
};

const batchText = (entry: Entry): string | undefined => {
  switch (entry.type) {
    case 'begun':
      return 'Batch begun';
    case 'vessel-weighed':
      return `${entry.vessel} empty: ${showMass(entry.tare)}${entry.reading === undefined ? ', as the sheet says' : ''}`;
    case 'noted':
      return entry.step === undefined ? `Note: ${entry.text}` : undefined;
    case 'paused':
      return `Paused: ${entry.reason}`;
    case 'resumed':
      return 'Resumed';
    case 'handed-over':
      return `Handed over to ${entry.to}`;
    case 'turned-to':
      return `Turned to ${entry.phase}`;
    case 'closed':
      return `Batch closed: ${entry.outcome}${because(entry.reason)}`;
    default:
      return undefined;
  }
};

export const batchSection = ({ entries }: RecordView): Markup => html`<h2>The batch as a whole</h2>
<table><tbody>${entries.map(entry => {
  const text = batchText(entry);
  return text && html`<tr>${who(entry)}<td>${text}</td></tr>`;
})}</tbody></table>`;

/** The steps that weigh nothing, readable from an arm's length. */
import type { Question } from '../../core/dialogue/conversation.ts';
import { titleOf } from '../../core/dialogue/explain.ts';
import type { PlannedStep } from '../../core/plan/plan.ts';
import { toExact } from '../../core/quantity/decimal.ts';
import { showDuration, showGrams, showShare } from '../../core/quantity/show.ts';
import type { TallyItem } from '../../core/run/event.ts';
import { plannedStep, stepState } from '../../core/run/focus.ts';
import type { Run, RunFacts, StepState, TallyState } from '../../core/run/state.ts';
import type { HoldStep, MeasureStep, Step } from '../../core/sheet/sheet.ts';
import { secondsBetween } from '../../core/time/instant.ts';
import { largeDigits } from './digits.ts';
import { factFlow } from './fact-flow.ts';
import type { Paper } from './paper.ts';
import { blank, flow, paragraph, type Row, row, span } from './row.ts';

const phaseOf = ({ phase }: PlannedStep): string => phase ?? 'Finish';

const bounds = ({ least, most, unit }: MeasureStep): string => {
  const parts = [
    ...(least === undefined ? [] : [`at least ${toExact(least)} ${unit}`]),
    ...(most === undefined ? [] : [`at most ${toExact(most)} ${unit}`]),
  ];
  return parts.join(', ');
};

const adjustLines = (run: RunFacts, planned: PlannedStep, state: StepState): readonly string[] => {
  const { step } = planned;
  if (step.kind !== 'adjust' || state.kind !== 'adjust') return [];
  return [
    `${run.sheet.materials.get(step.material)?.name ?? step.material}, until ${step.until}.`,
    `In so far ${showGrams(state.total, 2)}, at most ${showGrams(planned.most ?? step.most.mass, 2)}.`,
    ...(step.by === undefined ? [] : [`About ${step.by.typed} at a time.`]),
  ];
};

const two = (value: number): string => String(value).padStart(2, '0');

/** `1:02:03`, or `12:03` under an hour. */
const clockText = (seconds: number): string => {
  const whole = Math.max(0, seconds);
  const hours = Math.floor(whole / 3600);
  const rest = `${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
  return hours > 0 ? `${hours}:${rest}` : rest;
};

interface Wait {
  readonly label: string;
  readonly seconds: number;
}

const waitOf = ({ least, most }: HoldStep, since: number): Wait => {
  const toLeast = Number(least) - since;
  if (toLeast > 0) return { label: 'to wait yet', seconds: toLeast };
  if (most === undefined) return { label: 'WAITED LONG ENOUGH, since the start', seconds: since };
  const toMost = Number(most) - since;
  return toMost >= 0
    ? { label: 'WAITED LONG ENOUGH, left until the most', seconds: toMost }
    : { label: 'LATE BY', seconds: -toMost };
};

const holdFacts = ({ least, most }: HoldStep, since: number): readonly Row[] => [
  ...(since < 0 ? [] : [[span('since the start '), span(showDuration(since), 'strong')]]),
  [span('at least '), span(showDuration(least), 'strong')],
  ...(most === undefined ? [] : [[span('at most '), span(showDuration(most), 'strong')]]),
];

const runningHold = (step: HoldStep, since: number, paper: Paper): readonly Row[] => {
  const { label, seconds } = waitOf(step, since);
  const large = paper.rows >= 21 ? largeDigits(clockText(seconds), paper.ink) : undefined;
  return [
    row(label, 'strong'),
    ...(large ?? [clockText(seconds)]).map(line => row(line, 'accent')),
  ];
};

const holdRows = (step: HoldStep, state: StepState, paper: Paper): readonly Row[] => {
  const isRunning = state.status === 'running' && state.startedAt !== undefined;
  const since = isRunning ? secondsBetween(state.startedAt, paper.now) : -1;
  return [
    ...paragraph(paper.clean(step.why), paper.columns, 'strong'),
    ...(isRunning ? runningHold(step, since, paper) : []),
    ...flow(holdFacts(step, since), paper.columns),
  ];
};

const lines = (texts: readonly string[], paper: Paper): readonly Row[] =>
  texts.flatMap(text => paragraph(paper.clean(text), paper.columns, 'strong'));

const stepRows = (
  run: RunFacts,
  planned: PlannedStep,
  state: StepState,
  paper: Paper,
): readonly Row[] => {
  const step: Step = planned.step;
  if (state.kind === 'tally') return tallyRows(planned, state, paper);
  switch (step.kind) {
    case 'wear':
    case 'ready':
      return [
        row(step.kind === 'wear' ? 'Wear' : 'Ready', 'accent'),
        ...lines(
          step.items.map(item => `- ${item}`),
          paper,
        ),
      ];
    case 'hold':
      return holdRows(step, state, paper);
    case 'measure':
      return lines([`Measure ${step.what}`, bounds(step)], paper);
    case 'adjust':
      return lines(adjustLines(run, planned, state), paper);
    default:
      return lines([titleOf(planned)], paper);
  }
};

const titles: Partial<Record<Question['kind'], string>> = {
  who: 'Who is working',
  scales: 'The scales here',
  begin: 'A new batch',
  paused: 'Paused',
  close: 'Everything is done',
  'new-passphrase': 'A passphrase of your own',
  'repeat-passphrase': 'The passphrase again',
  passphrase: 'Sign the record',
  finished: 'The end',
};

const vesselRows = (run: RunFacts, planned: PlannedStep, paper: Paper): readonly Row[] => {
  const phase = run.plan.phases.find(each => each.name === planned.phase);
  return phase === undefined ? [] : lines([`Empty vessel: ${phase.vessel.name}`], paper);
};

const yieldRows = (run: RunFacts, paper: Paper): readonly Row[] => {
  const { pieces, batchMass } = run.plan.size;
  const { piece, loss } = run.sheet.makes;
  return lines(
    [
      `Planned: ${pieces} × ${piece}, ${showGrams(batchMass, 1)} weighed in, loss ${showShare(loss, 1)}.`,
    ],
    paper,
  );
};

const tallyUnits: Partial<Record<TallyItem, string>> = {
  'left over': ' g',
  crumbs: ' g',
  weight: ' g',
};

const tallyRows = (planned: PlannedStep, { entries }: TallyState, paper: Paper): readonly Row[] => [
  ...lines([titleOf(planned)], paper),
  ...factFlow(
    entries.map(({ item, value }) => [item, `${value}${tallyUnits[item] ?? ''}`]),
    paper,
  ),
];

/** Whether an empty vessel is asked for, though the step may be an addition. */
export const isAboutVessel = ({ kind }: Question): boolean =>
  kind === 'vessel' || kind === 'vessel-far-off';

/** What the middle of the screen shows for a question that is not about an addition being weighed. */
export const askingRows = (run: Run, question: Question, paper: Paper): readonly Row[] => {
  const title = titles[question.kind];
  if (run.phase === 'unbegun' || question.step === undefined) {
    return [
      row(title ?? '', 'accent'),
      ...(question.kind === 'close' && run.phase !== 'unbegun' ? yieldRows(run, paper) : []),
    ];
  }
  const planned = plannedStep(run, question.step);
  return [
    row(paper.clean(title ?? phaseOf(planned))),
    blank,
    ...(isAboutVessel(question)
      ? vesselRows(run, planned, paper)
      : stepRows(run, planned, stepState(run, question.step), paper)),
  ];
};

/** What is said about the events that followed from a line. */
import { beyondWindow } from '../plan/window.ts';
import { add, type Mass } from '../quantity/quantity.ts';
import { showGrams, showMass } from '../quantity/show.ts';
import type { RunEvent, Stamped, Tallied, Verdict } from '../run/event.ts';
import { vesselNow } from '../run/focus.ts';
import { scaleOfVessel } from '../run/judge.ts';
import { massFrom } from '../run/mass-text.ts';
import type { Refusal } from '../run/refusal.ts';
import type { RemedyChosen } from '../run/remedy-event.ts';
import type { Run, RunFacts } from '../run/state.ts';
import type { Saying } from './conversation.ts';
import { offTarget, showOn, titleOf } from './explain.ts';
import { good, mend, plain, stop } from './saying.ts';

const vesselText = (run: RunFacts, name: string): string => {
  const vessel = run.vessels.get(name);
  if (vessel === undefined) return '';
  const scale = scaleOfVessel(run, name);
  const gross = add(vessel.tare, vessel.contents);
  return ` In ${name}: ${showMass(vessel.contents, scale)} net, ${showMass(gross, scale)} gross.`;
};

const ofJudged = (run: RunFacts, step: number, total: Mass, verdict: Verdict): Saying => {
  const planned = run.plan.steps[step - 1];
  const addition = planned?.addition;
  if (planned === undefined || addition === undefined) return plain('');
  const shown = `${titleOf(planned)}: ${showOn(addition, total)}`;
  const vessel = vesselText(run, vesselNow(run, addition.vessel));
  if (verdict === 'in') return good(`${shown}, in: ${offTarget(addition, total)}.${vessel}`);
  const beyond = showOn(addition, beyondWindow(total, addition.window));
  return verdict === 'over'
    ? stop(`${shown}, over by ${beyond}.${vessel}`)
    : plain(`${shown} so far.${vessel}`);
};

const sayStretched = (run: RunFacts, { batchMass, pieces, topUps }: RemedyChosen): string => {
  const lines = topUps.map(({ n }) => run.plan.additions[n - 1]?.name ?? '');
  const next = lines.length === 0 ? 'Nothing to top up.' : `Top up ${lines.join(', ')} next.`;
  return `The batch is now ${showGrams(massFrom(batchMass), 1)}, ${pieces} pieces. ${next}`;
};

const inUnits = (value: string): string => showGrams(massFrom(value), 2);

const tallyMass = ({ item, value }: Tallied): string =>
  item === 'weight' || item === 'left over' || item === 'crumbs'
    ? `, that is ${inUnits(value)}`
    : '';

const sayEvent = (run: RunFacts, event: RunEvent): Saying | undefined => {
  switch (event.type) {
    case 'reading-taken':
    case 'taken-back':
    case 'amended':
      return event.judged === undefined
        ? plain(`Container before: ${inUnits(event.reading.mass)}.`)
        : ofJudged(run, event.step, massFrom(event.judged.total), event.judged.verdict);
    case 'begun':
      return good(`Begun: ${event.batch}${event.practice ? ', practice' : ''}.`);
    case 'vessel-weighed':
      return good(
        `${event.vessel}: tare ${showMass(massFrom(event.tare), scaleOfVessel(run, event.vessel))}.`,
      );
    case 'lot-identified':
      return good(`Lot ${event.lot}.`);
    case 'tared':
      return plain('Tared. What is poured now adds to what is in.');
    case 'accepted':
      return plain(`Accepted as a deviation: ${event.reason}.`);
    case 'witnessed':
      return good(`Witnessed by ${event.witness}.`);
    case 'remedy-chosen':
      return good(sayStretched(run, event));
    case 'remedy-left':
      return plain('The batch is what it was.');
    case 'hold-started':
      return plain('The time runs.');
    case 'measured':
      return event.verdict === 'in'
        ? good(`${event.value}, within the limits.`)
        : stop(`${event.value} is ${event.verdict} the limits.`);
    case 'adjusted':
      return good(`${event.typed}, that is ${inUnits(event.mass)}.`);
    case 'tallied':
      return plain(`${event.item}: ${event.typed}${tallyMass(event)}.`);
    case 'noted':
      return good('Noted.');
    case 'handed-over':
      return good(`${event.to} goes on.`);
    case 'turned-to':
      return plain(`Now: ${event.phase}.`);
    case 'closed':
      return event.outcome === 'made'
        ? good('The batch is closed.')
        : stop('The batch is closed as rejected.');
    default:
      return undefined;
  }
};

/** One sentence for each event that is worth one; `run` is the state after them. */
export const sayEvents = (run: Run, events: readonly Stamped[]): readonly Saying[] =>
  run.phase === 'unbegun'
    ? []
    : events.flatMap(({ event }) => {
        const saying = sayEvent(run, event);
        return saying === undefined ? [] : [saying];
      });

export const sayRefusal = ({ message, instead }: Refusal): Saying => mend(`${message} ${instead}`);

import type { TallyItem } from '../../src/core/run/event.ts';
import type { Intent } from '../../src/core/run/intent.ts';

/** An invented sheet with a step of every kind but a tip; its numbers are round on purpose. */
export const benchSheet = `sheet: Invented scrub
code: INV
revision: 1
makes: {piece: jar, count: 10, fill: 100 g}
tolerance: 1 %
use within: 1 month
materials:
  salt: {name: Salt}
  clay: {name: Clay}
  oil: {name: Oil, density: 0.9 g/mL, drop: 0.05 mL}
  water: {name: Water, density: 1 g/mL, lot: none}
  wax: {name: Wax}
limits:
  - {of: oil, in: batch, most: 2.1 %}
phases:
  - phase: Base
    vessel: {name: bowl, tare: 300 g, holds: 3 kg}
    steps:
      - wear: [mask]
      - add: salt
        amount: 600 g
      - add: clay
        amount: 300 g
      - add: oil
        amount: 20 g
        tolerance: -2 % +1 %
        witness: yes
      - do: Stir.
      - measure: humidity
        unit: "%"
        least: 20
        most: 50
      - adjust: water
        name: wetting
        by: 1 mL
        most: 10 mL
        until: it holds together
      - do: Press.
        within: 15 min of wetting
        empties: bowl
      - hold: 10 min to 30 min
        for: Rest.
  - phase: Top
    vessel: {name: jug, tare: 200 g}
    steps:
      - add: wax
        amount: 80 g
finish:
  - tally: {weigh: 2}
`;

/** The numbers of its steps. */
export const at = {
  wear: 1,
  salt: 2,
  clay: 3,
  oil: 4,
  stir: 5,
  humidity: 6,
  wetting: 7,
  press: 8,
  rest: 9,
  wax: 10,
  tally: 11,
} as const;

export const net = (step: number, typed: string): Intent => ({
  type: 'read',
  step,
  way: 'net',
  part: 'display',
  typed,
});
export const lot = (step: number, lot: string): Intent => ({ type: 'identify-lot', step, lot });
export const vessel = (name: string, typed?: string): Intent => ({
  type: 'weigh-vessel',
  vessel: name,
  ...(typed === undefined ? {} : { typed }),
});
export const tick = (step: number): Intent => ({ type: 'tick', step });
const tally = (item: TallyItem, typed: string): Intent => ({
  type: 'tally',
  step: at.tally,
  item,
  typed,
});

/** Up to the first reading. */
export const toSalt: readonly Intent[] = [tick(at.wear), vessel('bowl'), lot(at.salt, 'S-1')];
export const toClay: readonly Intent[] = [...toSalt, net(at.salt, '600'), lot(at.clay, 'C-1')];
export const toOil: readonly Intent[] = [...toClay, net(at.clay, '300'), lot(at.oil, 'O-1')];
/** The oil is in; its witness is due. */
export const toWitness: readonly Intent[] = [...toOil, net(at.oil, '20')];
const toStir: readonly Intent[] = [
  ...toWitness,
  { type: 'go-unwitnessed', step: at.oil, reason: 'alone today' },
];
export const toHumidity: readonly Intent[] = [...toStir, tick(at.stir)];
export const toWetting: readonly Intent[] = [
  ...toHumidity,
  { type: 'measure', step: at.humidity, typed: '40' },
];
export const toPress: readonly Intent[] = [
  ...toWetting,
  { type: 'adjust', step: at.wetting, typed: '2 mL' },
  { type: 'finish-adjust', step: at.wetting },
];
export const toRest: readonly Intent[] = [...toPress, tick(at.press)];
export const toRunningRest: readonly Intent[] = [...toRest, { type: 'start-hold', step: at.rest }];
/** The hold is ended with a reason, whenever it was started. */
const toWax: readonly Intent[] = [
  ...toRunningRest,
  { type: 'end-hold', step: at.rest, reason: 'set already' },
];
export const toTally: readonly Intent[] = [
  ...toWax,
  vessel('jug'),
  lot(at.wax, 'W-1'),
  net(at.wax, '80'),
];
export const toClose: readonly Intent[] = [
  ...toTally,
  tally('good', '8'),
  tally('rejected', '1 cracked'),
  tally('rejected', '0'),
  tally('samples', '1'),
  tally('left over', 'none'),
  tally('crumbs', '4.1'),
  tally('weight', '99.5'),
  tally('weight', '100.5'),
];

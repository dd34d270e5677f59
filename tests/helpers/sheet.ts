import { readNumber } from '../../src/core/quantity/decimal.ts';
import {
  dividedBy,
  grams,
  gramsPerMillilitre,
  type Mass,
  millilitres,
  type Ratio,
  ratio,
} from '../../src/core/quantity/quantity.ts';
import type {
  AddStep,
  Allowance,
  Amount,
  Material,
  Phase,
  Place,
  Sheet,
  Step,
  Tolerance,
} from '../../src/core/sheet/sheet.ts';

/** An exact number: `12.5`, `171000/49`. */
export const number = (text: string): Ratio => {
  const value = readNumber(text);
  if (value === undefined) throw new Error(`not a number: ${text}`);
  return value;
};

/** A mass in grams. */
export const mass = (text: string): Mass => grams(number(text));

/** `2.4` per cent is 0.024. */
export const percent = (text: string): Ratio => dividedBy(number(text), ratio(100n));

let line = 0;
/** A place of its own for each thing, in the order in which a test makes them. */
const nextPlace = (): Place => {
  line += 1;
  return { line, column: 1 };
};

const allowance = (text: string): Allowance =>
  text.endsWith('%')
    ? { kind: 'share', share: percent(text.slice(0, -1)) }
    : { kind: 'mass', mass: mass(text.replace(/g$/, '')) };

/** `tolerance('2%', '0.5g', '0.05')`: under, over and the floor in grams. */
export const tolerance = (under: string, over = under, floor?: string): Tolerance => ({
  under: allowance(under),
  over: allowance(over),
  ...(floor === undefined ? {} : { floor: mass(floor) }),
});

const amountOf = (text: string): Amount => {
  if (text === 'rest') return { kind: 'rest' };
  if (text.endsWith('%')) return { kind: 'share', share: percent(text.slice(0, -1)) };
  return { kind: 'mass', mass: mass(text.replace(/g$/, '')), typed: text };
};

/** `adding('water', '12.5%')`, `adding('water', '40g')`, `adding('water', 'rest')`. */
export const adding = (
  material: string,
  amount: string,
  more: Partial<Pick<AddStep, 'tolerance' | 'name' | 'witness' | 'within'>> = {},
): AddStep => ({
  kind: 'add',
  material,
  amount: amountOf(amount),
  witness: false,
  place: nextPlace(),
  ...more,
});

export const base = () => ({ witness: false, place: nextPlace() });

export const phaseOf = (
  name: string,
  steps: readonly Step[],
  more: Partial<Omit<Phase, 'name' | 'steps'>> = {},
): Phase => ({
  name,
  steps,
  vessel: { name: `${name} bowl` },
  after: [],
  portions: 1,
  place: nextPlace(),
  ...more,
});

const materialOf = (key: string, more: Partial<Material> = {}): Material => ({
  key,
  name: key,
  allergens: new Map(),
  hasLots: true,
  place: nextPlace(),
  ...more,
});

const materialsIn = (phases: readonly Phase[]): readonly string[] =>
  phases.flatMap(phase =>
    phase.steps.flatMap(step =>
      step.kind === 'add' || step.kind === 'adjust' ? [step.material] : [],
    ),
  );

/** An invented sheet: ten pieces of 100 g without loss, ±1 %, with the phases' materials declared. */
export const sheetOf = (phases: readonly Phase[], more: Partial<Sheet> = {}): Sheet => ({
  name: 'Invented',
  code: 'INV',
  revision: 1,
  makes: {
    piece: 'piece',
    count: 10,
    fill: mass('100'),
    loss: percent('0'),
    place: nextPlace(),
  },
  tolerance: tolerance('1%'),
  measures: new Map(),
  cautions: [],
  materials: new Map(materialsIn(phases).map(key => [key, materialOf(key)])),
  limits: [],
  phases,
  finish: [],
  basis: 'percentages',
  ...more,
});

/** The example of sheet.md, built by hand; texts shortened where no test reads them. */
export const cedarDomes = (): Sheet => {
  const basePhase = phaseOf(
    'Base',
    [
      { ...base(), kind: 'wear', items: ['dust mask', 'goggles'] },
      { ...base(), kind: 'ready', items: ['bowl and sieve clean', 'last batch cleared away'] },
      adding('bicarbonate', '62%'),
      adding('citric acid', '31%'),
      adding('cedar blend', '2.4%', { tolerance: tolerance('2%', '1%'), witness: true }),
      adding('cornflour', 'rest'),
      { ...base(), kind: 'do', text: 'Rub through a 1 mm sieve until no lump is left.' },
      { ...base(), kind: 'measure', what: 'humidity', unit: '%', most: number('50') },
      {
        ...base(),
        kind: 'adjust',
        material: 'water',
        name: 'wetting',
        by: { typed: '1 mL', mass: mass('0.998') },
        most: { typed: '12 mL', mass: mass('11.976') },
        until: 'a squeezed handful holds together',
      },
      {
        ...base(),
        kind: 'do',
        text: 'Press into the moulds.',
        within: { seconds: 900n, of: 'wetting' },
        empties: 'steel bowl',
      },
      { ...base(), kind: 'hold', least: 600n, most: 1800n, why: 'Rest, covered.' },
    ],
    {
      share: percent('85'),
      vessel: { name: 'steel bowl', tare: mass('812'), holds: mass('6000') },
    },
  );
  const topping = phaseOf(
    'Topping',
    [adding('cocoa butter', '70%'), adding('stearic acid', '30%')],
    { share: percent('15'), vessel: { name: 'jug', tare: mass('240'), holds: mass('2000') } },
  );
  const density = (text: string) => gramsPerMillilitre(number(text));
  const materials = [
    materialOf('bicarbonate', { name: 'Sodium bicarbonate', density: density('1.05') }),
    materialOf('citric acid', {
      name: 'Citric acid, anhydrous, fine',
      density: density('0.95'),
      hazard: 'eye irritant',
    }),
    materialOf('cornflour', { name: 'Cornflour' }),
    materialOf('cedar blend', {
      name: 'Cedarwood blend',
      density: density('0.93'),
      drop: millilitres(number('0.03')),
    }),
    materialOf('cocoa butter', { name: 'Cocoa butter' }),
    materialOf('stearic acid', { name: 'Stearic acid' }),
    materialOf('water', { name: 'Water', density: density('0.998'), hasLots: false }),
  ];
  return sheetOf([basePhase, topping], {
    name: 'Cedar bath domes with whipped topping',
    code: 'CDR',
    revision: 4,
    makes: {
      piece: 'dome',
      count: 36,
      fill: mass('95'),
      loss: percent('2'),
      place: nextPlace(),
    },
    tolerance: tolerance('1%', '1%', '0.05'),
    useWithin: { count: 9, unit: 'month' },
    contact: 'rinse-off',
    materials: new Map(materials.map(each => [each.key, each])),
    limits: [
      { kind: 'share', material: 'cedar blend', most: percent('3'), place: nextPlace() },
      {
        kind: 'ratio',
        material: 'bicarbonate',
        to: 'citric acid',
        least: number('1.8'),
        most: number('2.2'),
        place: nextPlace(),
      },
    ],
    finish: [
      { ...base(), kind: 'hold', least: 64_800n, most: 129_600n, why: 'Dry on racks.' },
      { ...base(), kind: 'tally', weigh: 5 },
    ],
  });
};

/**
 * A whole practice batch of the demo sheet `orange-tartlets.yaml`, as the lines that a maker types. All
 * lots, names and numbers are invented. Its holds are ended early with a reason: no test waits twelve hours.
 */
export const tartletsSheet = 'sheets/orange-tartlets.yaml';

export const maker = 'Ines Okafor';

/** Before the batch is closed. */
export const weighing: readonly string[] = [
  '', // begin
  '', // wear
  '780.4', // the empty bowl
  'BIC-2206-A',
  '900', // under
  '1336.2',
  'CIT-118',
  '690', // over
  'take back',
  '668,1', // a decimal comma
  'CRN-5',
  'difference',
  '1000.00', // would be over the fine scale's capacity: refused
  'cup',
  '182.60',
  'ORG-77',
  '40.08',
  '', // sieve
  '6 mL', // wetting
  '3.0 g',
  'done',
  '', // press
  '', // the hold begins
  'go on',
  'test of the walk',
  'turn topping',
  '', // the jug, at the sheet's tare
  'CCB-9',
  'gross',
  '700.2', // 240 g of jug and 460.2 g
  'ALM-3',
  'net',
  '275.0',
  'tare',
  '7.1',
  'note whipped a little longer than usual',
  '', // pipe
  '', // the drying begins
  'go on',
  'test of the walk',
  '22', // good
  '1 cracked',
  '0',
  '1', // sample
  '0',
  '35.5', // crumbs
  '119.2',
  '121.0',
  '120.4',
  '119.9',
  '120.0',
  '120.6',
];

/** From closing to the end. */
export const signing: readonly string[] = ['close', 'correct horse', 'correct horse', ''];

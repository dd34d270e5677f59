import { expect, test } from 'vitest';
import { ratio } from '../../../../src/core/quantity/quantity.ts';
import { rootToDecimal } from '../../../../src/workshop/verify/recompute/yield-again.ts';

test.each<readonly [bigint, bigint, string]>([
  [0n, 1n, '0.0000'],
  [4n, 1n, '2.0000'],
  // √2 = 1.414 213 56…
  [2n, 1n, '1.4142'],
  // √3 = 1.732 050 80…
  [3n, 1n, '1.7321'],
  [1n, 4n, '0.5000'],
  // 0.00005² and 0.00015²: exactly half-way, to the even neighbour.
  [25n, 10n ** 10n, '0.0000'],
  [225n, 10n ** 10n, '0.0002'],
  // A little more than half-way.
  [26n, 10n ** 10n, '0.0001'],
])('the root of %d/%d is %s', (num, den, text) => {
  expect(rootToDecimal(ratio(num, den), 4)).toBe(text);
});

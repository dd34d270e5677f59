import { defineConfig } from 'vitest/config';

/** Where a report for machines is wanted, beside the one for people. */
const report = process.env['TAREBOOK_REPORT'];

export default defineConfig({
  test: {
    include: ['tests/**/*.test.{ts,tsx}'],
    testTimeout: 30_000,
    ...(report === undefined
      ? {}
      : { reporters: ['default', 'json'], outputFile: { json: report } }),
  },
});

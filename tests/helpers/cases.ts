/** How many random cases a test runs: TAREBOOK_CASES where it is set, else the test's own number. */
export const cases = (usual: number): number => Number(process.env['TAREBOOK_CASES'] ?? usual);

/** Of all random tests; TAREBOOK_SEED repeats a run. */
export const seed = Number(process.env['TAREBOOK_SEED'] ?? Date.now() % 2 ** 31);

console.info(`random tests: seed ${seed}`);

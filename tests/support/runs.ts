/**
 * How often a property test runs. `normal` is the number for `npm test`; COMMENSAL_RUNS scales all of them alike,
 * 1000 being the normal length (`npm run test:slow` sets 20000).
 *
 * @example fc.assert(fc.property(...), { numRuns: runs(500) })
 */
export function runs(normal: number): number {
  const scale = Number(process.env.COMMENSAL_RUNS ?? 1000) / 1000;
  if (!(scale > 0)) throw new RangeError(`runs: COMMENSAL_RUNS must be a positive number, got ${process.env.COMMENSAL_RUNS}`);
  return Math.max(1, Math.round(normal * scale));
}

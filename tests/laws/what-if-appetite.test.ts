import fc from 'fast-check';
import { expect, it } from 'vitest';
import { rankOfVerdict } from '../../packages/core/src/whatif/columns/kernel.js';
import { compareWithCheck, nothingSeen, servedIn, varyings } from '../support/kernels.js';
import { runs } from '../support/runs.js';

it('who goes for whom in a scenario is the same by columns as by check', () => {
  const seen = nothingSeen();
  const thresholds = fc.constantFrom(undefined, undefined, { appetite: { smallShare: 0.8 } });
  fc.assert(
    fc.property(varyings(thresholds), (varying) => compareWithCheck('appetite', varying, 20, seen)),
    { numRuns: runs(120) },
  );
  expect(servedIn(seen)).toBeGreaterThan(1000 * Math.min(1, runs(1)));
  expect(seen.left).toBeGreaterThan(0);
  expect(seen.left).toBeLessThan(servedIn(seen) / 3);
  for (const outcome of ['failed', 'cantTell'] as const)
    for (const level of ['note', 'warning', 'error'] as const) expect([...seen.ranks.keys()]).toContain(rankOfVerdict({ outcome, level }));
  for (const outcome of ['passed', 'inapplicable'] as const)
    expect([...seen.ranks.keys()]).toContain(rankOfVerdict({ outcome, level: 'note' }));
});

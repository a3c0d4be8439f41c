import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rankOfVerdict } from '../../packages/core/src/whatif/columns/kernel.js';
import { compareWithCheck, nothingSeen, servedIn, type Varying, varyings } from '../support/kernels.js';
import { runs } from '../support/runs.js';
import failedOnce from './what-if-contests.cases.json' with { type: 'json' };

type Rank = Parameters<typeof rankOfVerdict>[0];

/** What each rule can come to. */
const POSSIBLE: Readonly<Record<string, readonly Rank[]>> = {
  rivalry: [
    { outcome: 'inapplicable', level: 'note' },
    { outcome: 'passed', level: 'note' },
    { outcome: 'cantTell', level: 'warning' },
    { outcome: 'cantTell', level: 'error' },
    { outcome: 'failed', level: 'note' },
    { outcome: 'failed', level: 'warning' },
    { outcome: 'failed', level: 'error' },
  ],
  dominance: [
    { outcome: 'inapplicable', level: 'note' },
    { outcome: 'passed', level: 'note' },
    { outcome: 'cantTell', level: 'warning' },
    { outcome: 'failed', level: 'warning' },
    { outcome: 'failed', level: 'error' },
  ],
  lockout: [
    { outcome: 'inapplicable', level: 'note' },
    { outcome: 'passed', level: 'note' },
    { outcome: 'cantTell', level: 'warning' },
    { outcome: 'cantTell', level: 'error' },
    { outcome: 'failed', level: 'warning' },
    { outcome: 'failed', level: 'error' },
  ],
};

/** Others than the usual thresholds, under which other animals count as much smaller and more contests are even. */
const THRESHOLDS = (rule: string) =>
  fc.constantFrom(
    undefined,
    undefined,
    { [rule]: { smallerShare: 0.9, evenFrom: 0.2 } },
    { [rule]: { stepWorth: 0.2 }, 'rock-crowding': { wayOfLiving: 0.8 } },
    { [rule]: { smallerShare: 1.1 } },
  );

/** Those that a kernel once told otherwise than check. */
const casesOf = (rule: string): [Varying][] =>
  (failedOnce as unknown as Readonly<Record<string, Varying[]>>)[rule]?.map((varying): [Varying] => [varying]) ?? [];

describe('contests of a scenario are the same by columns as by check', () => {
  it.each(Object.entries(POSSIBLE))('%s', (rule, possible) => {
    const seen = nothingSeen();
    fc.assert(
      fc.property(varyings(THRESHOLDS(rule)), (varying) => compareWithCheck(rule, varying, 20, seen)),
      { numRuns: runs(150), examples: casesOf(rule) },
    );
    expect(servedIn(seen)).toBeGreaterThan(1000 * Math.min(1, runs(1)));
    // What varies that a kernel reads as it is is left to the rule.
    expect(seen.without).toBeGreaterThan(0);
    // Two of one kind and length are equals, so that who rules is left to the rule.
    expect(seen.left).toBeLessThan(servedIn(seen) / 5);
    for (const one of possible) expect([...seen.ranks.keys()], JSON.stringify(one)).toContain(rankOfVerdict(one));
  });
});

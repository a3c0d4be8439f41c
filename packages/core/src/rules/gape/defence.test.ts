import type { Situation, SpeciesRecord } from '@commensal/schema';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../../tests/support/runs.js';
import { checkBy, exact, onlyVerdict, recordWith, resident, situationWith, swallower } from '../../../tests/support/scene.js';
import { gape } from './gape.js';

const depth = (value: number) => exact(value, '1');

/** A prey 0.25 of its standard length deep, which is 0.2 of its total length, and more when it raises its spines. */
const prey = (defendedDepth?: number): SpeciesRecord =>
  recordWith('pisciculus-primus', {
    shape: {
      bodyDepth: depth(0.25),
      ...(defendedDepth === undefined ? {} : { defendedDepth: depth(defendedDepth) }),
      gapeClass: { value: 'notGapeLimited', basis: 'practice' },
    },
    size: { captiveAdult: exact(5, 'cm'), totalPerStandard: exact(1.25, '1') },
    growth: { asymptoticLength: exact(5, 'cm'), rate: exact(0.5, '/a') },
  });

const so = (predatorCm: number, preyCm: number, squeeze?: number): Situation =>
  situationWith({
    residents: [resident('hiator-primus', predatorCm), resident('pisciculus-primus', preyCm)],
    ...(squeeze === undefined ? {} : { settings: { thresholds: { gape: { squeeze } } } }),
  });

const check = (situation: Situation, ofPrey: SpeciesRecord) => checkBy(gape, situation, [swallower('hiator-primus'), ofPrey]);

describe('defended depth', () => {
  // The mouth of 10 cm passes 2.4 cm; a prey of 5 cm is 1 cm deep.
  it('raises the depth, and the finding says so', () => {
    const [bare] = check(so(10, 5), prey()).findings;
    expect(bare).toMatchObject({ outcome: 'failed', data: { preyDepth: { value: 1, unit: 'cm' } } });
    expect(bare?.data.defended).toBeUndefined();
    const [armed] = check(so(10, 5), prey(0.5)).findings;
    expect(armed).toMatchObject({ outcome: 'failed', data: { preyDepth: { value: 2, unit: 'cm' }, defended: { keys: ['defended'] } } });
    expect(onlyVerdict(check(so(10, 5), prey(0.9)))).toBe('passed');
  });

  it('never lowers it', () => {
    const [finding] = check(so(10, 5), prey(0.1)).findings;
    expect(finding?.data).toMatchObject({ preyDepth: { value: 1, unit: 'cm' } });
    expect(finding?.data.defended).toBeUndefined();
  });

  it('stands in where the depth at rest is not known', () => {
    const record = prey(0.5);
    const { bodyDepth: _, ...shape } = record.shape ?? {};
    expect(check(so(10, 5), { ...record, shape }).findings[0]).toMatchObject({
      outcome: 'failed',
      data: { preyDepth: { value: 2, unit: 'cm' } },
    });
  });
});

describe('squeeze', () => {
  // 2.4 cm of mouth against 2.8 cm of body: 1.17 times.
  const close = prey(0.7);

  it.each([
    [undefined, 'cantTell'],
    [1.25, 'cantTell'],
    [1.1, 'passed'],
    [1, 'passed'],
  ])('of %s: %s', (squeeze, outcome) => {
    expect(onlyVerdict(check(so(10, 5, squeeze), close)).split(' ')[0]).toBe(outcome);
  });

  it('says how much is assumed', () =>
    expect(gape.defaults.squeeze).toMatchObject({ value: 1.25, basis: 'derived', source: 'mihalitsis-bellwood-2017' }));
});

describe('the law of lengths', () => {
  const DANGER = ['passed', 'cantTell', 'failed'];
  const danger = (predatorCm: number, preyCm: number, ofPrey: SpeciesRecord, squeeze: number): number => {
    const verdict = onlyVerdict(check(so(predatorCm, preyCm, squeeze), ofPrey));
    return DANGER.indexOf(verdict.split(' ')[0] ?? '');
  };
  const length = fc.integer({ min: 20, max: 200 }).map((tenths) => tenths / 10);
  const squeeze = fc.integer({ min: 100, max: 160 }).map((hundredths) => hundredths / 100);
  const defence = fc.option(
    fc.integer({ min: 10, max: 120 }).map((hundredths) => hundredths / 100),
    { nil: undefined },
  );

  it('a longer predator is never safer, a longer prey never in more danger, squeezing and less defence never safer', () => {
    fc.assert(
      fc.property(length, length, length, squeeze, squeeze, defence, (one, other, preyCm, less, more, defended) => {
        const [short, long] = [Math.min(one, other), Math.max(one, other)];
        const ofPrey = prey(defended);
        expect(danger(long, preyCm, ofPrey, less)).toBeGreaterThanOrEqual(danger(short, preyCm, ofPrey, less));
        expect(danger(preyCm, long, ofPrey, less)).toBeLessThanOrEqual(danger(preyCm, short, ofPrey, less));
        expect(danger(one, preyCm, ofPrey, Math.max(less, more))).toBeGreaterThanOrEqual(danger(one, preyCm, ofPrey, Math.min(less, more)));
        expect(danger(one, preyCm, prey(), less)).toBeGreaterThanOrEqual(danger(one, preyCm, ofPrey, less));
      }),
      { numRuns: runs(1000) },
    );
  });
});

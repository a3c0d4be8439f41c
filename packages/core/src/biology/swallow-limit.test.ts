import { describe, expect, it } from 'vitest';
import type { Band } from '../quantity/band.js';
import { GAPE_PER_JAW, type Mouth, PLANKTIVORE_WIDTH_PER_HEIGHT, SQUEEZE, type SwallowRung, swallowLimit } from './swallow-limit.js';

const bandAt = (centre: number, basis: Band['basis'] = 'measured'): Band => ({ low: centre / 1.1, centre, high: centre * 1.2, basis });

/** Each rung with a centre of its own. */
const EVERYTHING: Mouth = {
  swallowTrial: bandAt(0.27, 'measured'),
  gapeWidth: bandAt(0.26, 'derived'),
  lowerJaw: bandAt(0.2, 'practice'),
  guildGape: bandAt(0.237, 'imputed'),
  relativesJaw: bandAt(0.19, 'recalled'),
};
const LADDER: readonly { rung: SwallowRung; centre: number; basis: Band['basis'] }[] = [
  { rung: 'swallowTrial', centre: 0.27, basis: 'measured' },
  { rung: 'gapeWidth', centre: 0.26, basis: 'derived' },
  { rung: 'lowerJaw', centre: 0.2 * GAPE_PER_JAW, basis: 'practice' },
  { rung: 'guildGape', centre: 0.237, basis: 'imputed' },
  { rung: 'relativesJaw', centre: 0.19 * GAPE_PER_JAW, basis: 'recalled' },
];

describe('swallowLimit', () => {
  it.each(LADDER.map((entry, at) => ({ ...entry, at })))('takes $rung where nothing surer is known', ({ rung, centre, basis, at }) => {
    const surer = LADDER.slice(0, at).map((entry) => [entry.rung, undefined]);
    expect(swallowLimit({ ...EVERYTHING, ...Object.fromEntries(surer) })).toMatchObject({ rung, centre, basis });
  });

  it('is undefined where nothing is known', () => {
    expect(swallowLimit({})).toBeUndefined();
    expect(swallowLimit({ longSnout: false })).toBeUndefined();
  });

  it('a long snout says nothing: its own jaw and its relatives’ are passed over', () => {
    const jawsOnly: Mouth = { lowerJaw: bandAt(0.2), relativesJaw: bandAt(0.19), longSnout: true };
    expect(swallowLimit(jawsOnly)).toBeUndefined();
    expect(swallowLimit({ ...jawsOnly, guildGape: bandAt(0.16) })?.rung).toBe('guildGape');
    expect(swallowLimit({ ...jawsOnly, longSnout: false })?.rung).toBe('lowerJaw');
  });

  it('a long snout does not matter where the gape itself was measured', () => {
    expect(swallowLimit({ ...EVERYTHING, longSnout: true })?.rung).toBe('swallowTrial');
    expect(swallowLimit({ ...EVERYTHING, swallowTrial: undefined, longSnout: true })?.rung).toBe('gapeWidth');
  });

  it('the squeeze widens the upper end in quadrature with the band of the source, and leaves centre and lower end', () => {
    const source = bandAt(0.2);
    const limit = swallowLimit({ swallowTrial: source });
    const error = Math.hypot(Math.log(1.2), Math.log(SQUEEZE));
    // Twelve decimals: the ends go through logarithms and back.
    expect(limit?.centre).toBe(0.2);
    expect(limit?.low).toBeCloseTo(0.2 / 1.1, 12);
    expect(limit?.high).toBeCloseTo(0.2 * Math.exp(error), 12);
  });

  it('an exact source still has the squeeze above it, 1.25 unless told otherwise', () => {
    const exact: Band = { low: 0.2, centre: 0.2, high: 0.2, basis: 'measured' };
    // Twelve decimals: the ends go through logarithms and back.
    expect(swallowLimit({ gapeWidth: exact })?.high).toBeCloseTo(0.25, 12);
    expect(swallowLimit({ gapeWidth: exact }, 1.5)?.high).toBeCloseTo(0.3, 12);
    expect(swallowLimit({ gapeWidth: exact }, 1)).toMatchObject({ low: 0.2, centre: 0.2, high: 0.2 });
  });

  it('a jaw times 1.2 has the error of the formula, a tenth, besides its own, and is no better than derived', () => {
    const limit = swallowLimit({ lowerJaw: bandAt(0.2) }, 1);
    // Twelve decimals: the ends go through logarithms and back.
    expect(limit?.low).toBeCloseTo(0.24 / Math.exp(Math.hypot(Math.log(1.1), Math.log(1.1))), 12);
    expect(limit?.high).toBeCloseTo(0.24 * Math.exp(Math.hypot(Math.log(1.2), Math.log(1.1))), 12);
    expect(limit?.basis).toBe('derived');
  });

  it('the open mouth of plankton pickers is higher than wide, which matters only where it is computed from a jaw', () => {
    for (const jaw of ['lowerJaw', 'relativesJaw'] as const) {
      const limit = swallowLimit({ [jaw]: bandAt(0.2), picksPlankton: true });
      expect(limit).toMatchObject({ rung: jaw });
      // Twelve decimals: a product in another order.
      expect(limit?.centre).toBeCloseTo(0.2 * GAPE_PER_JAW * PLANKTIVORE_WIDTH_PER_HEIGHT, 12);
    }
    expect(swallowLimit({ gapeWidth: bandAt(0.2), picksPlankton: true })?.centre).toBe(0.2);
    expect(swallowLimit({ guildGape: bandAt(0.2), picksPlankton: true })?.centre).toBe(0.2);
  });
});

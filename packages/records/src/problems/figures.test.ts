import type { SpeciesRecord } from '@commensal/schema';
import { standIns } from '@commensal/species-sample';
import { describe, expect, it } from 'vitest';
import { figureOf, gramsAtTen, ofRelatives, perStandard, shown, totalCm } from './figures.js';

const record = {
  form: 'fish',
  taxon: { scientificName: 'Chromis viridis', genus: 'Chromis', family: 'Pomacentridae' },
  size: { totalPerStandard: { value: 1.25, unit: '1', basis: 'recalled' }, totalPerFork: { value: 1.1, unit: '1', basis: 'recalled' } },
} as SpeciesRecord;

describe('figures of a record', () => {
  it('are read in the unit wanted, and not where their band is out of order', () => {
    expect(figureOf({ low: 70, high: 90, unit: 'mm' }, 'cm')).toEqual({ low: 7, centre: 8, high: 9 });
    expect(figureOf({ value: 2, unit: '[in_i]' }, 'cm')).toEqual({ low: 5.08, centre: 5.08, high: 5.08 });
    expect(figureOf({ low: 9, high: 7, unit: 'cm' }, 'cm')).toBeUndefined();
    expect(figureOf({ value: 1, low: 7, high: 9, unit: 'cm' }, 'cm')).toBeUndefined();
  });

  it('become total lengths by their type', () => {
    const cm = (lengthType: 'TL' | 'SL' | 'FL'): number | undefined =>
      totalCm({ value: 10, unit: 'cm', lengthType, basis: 'measured', source: 'a' }, record, standIns)?.centre;
    expect(cm('TL')).toBe(10);
    expect(cm('SL')).toBe(12.5);
    expect(cm('FL')).toBe(11);
  });

  it('become shares of standard length by what they are a share of', () => {
    const share = (per: 'TL' | 'SL' | 'FL'): number | undefined =>
      perStandard({ value: 0.4, unit: '1', per, basis: 'measured', source: 'a' }, record, standIns);
    expect(share('SL')).toBe(0.4);
    expect(share('TL')).toBeCloseTo(0.5, 12);
    expect(share('FL')).toBeCloseTo((0.4 * 1.25) / 1.1, 12);
  });

  it('weigh at 10 cm total length what a for standard lengths gives at 8 cm', () => {
    const grams = gramsAtTen({ a: 0.03, b: 3, lengthType: 'SL', basis: 'measured', source: 'a' }, record, standIns);
    expect(grams).toBeCloseTo(0.03 * 512, 9);
  });

  it('are compared with the genus, and with the family where the genus has none', () => {
    expect(ofRelatives(record, standIns, 'bodyDepth')?.rank).toBe('genus');
    expect(ofRelatives(record, standIns, 'bodyWidth')?.rank).toBe('family');
  });

  it('are shown with three digits', () => {
    expect([0.43881, 12.3456, 110, 0.3].map(shown)).toEqual(['0.439', '12.3', '110', '0.3']);
  });
});

import type { Situation } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { deepFrozen } from '../../tests/support/invented.js';
import { tankOf } from './tank-of.js';

/** Ends of bands go through logarithms and back, so they are right to about twelve decimals. */
const DECIMALS = 12;

const tankWith = (more: Partial<Situation['tank']>): ReturnType<typeof tankOf> =>
  tankOf(deepFrozen({ water: { value: 240, unit: 'L' }, ...more }));

describe('the rock', () => {
  it('20 kg of reef rock have an envelope of 12.99 litres, between 10.5 and 18.0', () => {
    const rock = tankWith({ rock: { mass: { value: 20, unit: 'kg' } } }).rockL;
    // Two decimals are what the text says.
    expect(rock?.centre).toBeCloseTo(12.99, 2);
    // Grain density 2.72 to 2.9 kg/L and pores of 33 to 60 %, as independent errors.
    expect(rock?.low).toBeCloseTo(20 / (2.8 * 0.55) / Math.exp(Math.hypot(Math.log(2.9 / 2.8), Math.log(0.67 / 0.55))), DECIMALS);
    expect(rock?.high).toBeCloseTo((20 / (2.8 * 0.55)) * Math.exp(Math.hypot(Math.log(2.8 / 2.72), Math.log(0.55 / 0.4))), DECIMALS);
    expect(rock?.basis).toBe('derived');
  });

  it('is as told where its volume is told, and then its mass has no say', () => {
    expect(tankWith({ rock: { envelope: { value: 20, unit: 'L' }, mass: { value: 5, unit: 'kg' } } }).rockL).toEqual({
      low: 20,
      centre: 20,
      high: 20,
      basis: 'measured',
    });
  });

  it('density and pores that are told are exact, and with both the envelope counts as measured', () => {
    const told = tankWith({
      rock: { mass: { value: 28, unit: 'kg' }, grainDensity: { value: 2.8, unit: 'kg/L' }, porosity: { value: 0.5, unit: '1' } },
    }).rockL;
    expect(told?.centre).toBe(20);
    expect(told?.low).toBeCloseTo(20, DECIMALS);
    expect(told?.high).toBeCloseTo(20, DECIMALS);
    expect(told?.basis).toBe('measured');
    const half = tankWith({ rock: { mass: { value: 28, unit: 'kg' }, porosity: { value: 0.5, unit: '1' } } }).rockL;
    expect(half?.high).toBeCloseTo(20 * (2.8 / 2.72), DECIMALS);
    expect(half?.basis).toBe('derived');
  });

  it('a mass between two numbers widens the envelope', () => {
    const rock = tankWith({
      rock: {
        mass: { low: 14, value: 28, high: 56, unit: 'kg' },
        grainDensity: { value: 2.8, unit: 'kg/L' },
        porosity: { value: 0.5, unit: '1' },
      },
    }).rockL;
    expect(rock?.low).toBeCloseTo(10, DECIMALS);
    expect(rock?.high).toBeCloseTo(40, DECIMALS);
  });

  it('44.09 lb are the same as 20 kg, to the digits given', () => {
    // Two decimals: 44.09 lb are 19.9989 kg.
    expect(tankWith({ rock: { mass: { value: 44.09, unit: '[lb_av]' } } }).rockL?.centre).toBeCloseTo(12.99, 2);
  });

  it('rock that is not told of is unknown, not absent', () => {
    expect(tankWith({}).rockL).toBeUndefined();
  });
});

describe('the rest of the tank', () => {
  it('is read in litres, centimetres and degrees Celsius', () => {
    const tank = tankOf({
      water: { value: 63.4, unit: '[gal_us]' },
      length: { value: 48, unit: '[in_i]' },
      width: { value: 450, unit: 'mm' },
      temperature: { low: 77, high: 86, unit: '[degF]' },
      salinity: { value: 34.5, unit: '1' },
      acidity: { value: 8.2, unit: '[pH]' },
      cycledOn: '2027-02-10',
    });
    expect(tank.waterL.centre).toBeCloseTo(239.9951, 4); // the four decimals written here
    expect(tank.lengthCm?.centre).toBeCloseTo(121.92, DECIMALS);
    expect(tank.widthCm?.centre).toBeCloseTo(45, DECIMALS);
    expect(tank.temperatureCel?.low).toBeCloseTo(25, DECIMALS);
    expect(tank.temperatureCel?.high).toBeCloseTo(30, DECIMALS);
    expect(tank.salinity?.centre).toBe(34.5);
    expect(tank.acidity?.centre).toBe(8.2);
    expect(tank.cycledDay).toBe(20859);
  });

  it('what is not told of is unknown', () => {
    const tank = tankWith({});
    for (const field of ['lengthCm', 'widthCm', 'temperatureCel', 'salinity', 'acidity', 'cycledDay'] as const)
      expect(tank[field]).toBeUndefined();
  });
});

import type { Length, ShapeRatio, SpeciesRecord, StandInRatio } from '@commensal/schema';
import { speciesProblems, standInsProblems } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { deepFrozen, inventedSpecies, inventedStandIns } from '../../tests/support/invented.js';
import { asymptoticFromMaximum } from '../biology/asymptotic-length.js';
import { kindOf } from './kind-of.js';

/** Ends of bands go through logarithms and back, so they are right to about twelve decimals. */
const DECIMALS = 12;

const cm = (value: number, lengthType: Length['lengthType'] = 'TL'): Length => ({
  value,
  unit: 'cm',
  lengthType: lengthType ?? 'TL',
  basis: 'practice',
});
const share = (value: number): ShapeRatio => ({ value, unit: '1', per: 'SL', basis: 'practice' });
const SOURCE = { source: 'inventor-2027', formula: 'invented' } as const;
const ratio = (value: number): StandInRatio => ({ value, unit: '1', basis: 'derived', ...SOURCE });

/** The 90th percentile of the absolute error is 1.645 sigma, the end of the central 80 % is 1.282 sigma. */
const spreadOf = (percentile90: number): number => 1 + (percentile90 * 1.2816) / 1.6449;

const STAND_INS = deepFrozen(
  inventedStandIns(
    [
      { rank: 'genus', name: 'Unus', totalPerStandard: ratio(1.2), bodyDepth: ratio(0.3), lowerJaw: ratio(0.15) },
      {
        rank: 'family',
        name: 'Exemplidae',
        totalPerStandard: ratio(1.4),
        bodyDepth: ratio(0.5),
        lowerJaw: ratio(0.1),
        growthRate: { value: 0.8, unit: '/a', basis: 'derived', ...SOURCE },
      },
      { rank: 'guild', name: 'piscivore', gapeWidth: ratio(0.24) },
      { rank: 'guild', name: 'invertivore', gapeWidth: ratio(0.16) },
      { rank: 'guild', name: 'planktivore', gapeWidth: ratio(0.1) },
      { rank: 'guild', name: 'grazer', gapeWidth: ratio(0.08) },
    ],
    [
      { figure: 'bodyDepth', rank: 'genus', percentile90: 0.19, basis: 'recalled' },
      { figure: 'bodyDepth', rank: 'family', percentile90: 0.35, basis: 'recalled' },
      { figure: 'totalPerStandard', rank: 'genus', percentile90: 0.08, basis: 'recalled' },
      { figure: 'totalPerStandard', rank: 'family', percentile90: 0.12, basis: 'recalled' },
    ],
  ),
);

const kindWith = (more: Partial<SpeciesRecord>, id = 'unus-primus'): ReturnType<typeof kindOf> => {
  const sources = JSON.stringify(more).includes(SOURCE.source) ? [SOURCE.source] : [];
  const record = deepFrozen(inventedSpecies(id, { ...more, sources }));
  expect(speciesProblems(record)).toEqual([]);
  return kindOf(record, STAND_INS);
};

it('the invented stand-ins are valid', () => {
  expect(standInsProblems(STAND_INS)).toEqual([]);
});

describe('length types', () => {
  const lengths = {
    totalPerStandard: { value: 1.3, unit: '1', basis: 'practice' },
    totalPerFork: { value: 1.1, unit: '1', basis: 'practice' },
  } as const;

  it.each([
    ['TL', 10],
    ['SL', 13],
    ['FL', 11],
  ] as const)('10 cm %s is %d cm of total length', (type, total) => {
    const kind = kindWith({ size: { ...lengths, captiveAdult: cm(10, type) } });
    expect(kind.adultCm?.centre).toBeCloseTo(total, DECIMALS);
  });

  it('a length without a type is a total length', () => {
    const kind = kindWith({ size: { ...lengths, captiveAdult: { value: 10, unit: 'cm', basis: 'practice' } } });
    expect(kind.adultCm?.centre).toBe(10);
  });

  it('the error of the ratio joins that of the length, in quadrature', () => {
    const adult = kindWith({ size: { ...lengths, captiveAdult: cm(10, 'SL') } }).adultCm;
    const error = Math.hypot(Math.log(1.25), Math.log(1.25));
    expect(adult?.high).toBeCloseTo(13 * Math.exp(error), DECIMALS);
    expect(adult?.low).toBeCloseTo(13 / Math.exp(error), DECIMALS);
  });

  it('a fork length without its ratio, and a standard length without any, stay unknown', () => {
    expect(kindWith({ size: { captiveAdult: cm(10, 'FL') } }).adultCm).toBeUndefined();
    expect(kindOf(inventedSpecies('unus-primus', { size: { captiveAdult: cm(10, 'SL') } })).adultCm).toBeUndefined();
  });

  it('every length of a record is converted: entry, adult, asymptotic, and the maximum behind an asymptotic length', () => {
    const kind = kindWith({
      size: { ...lengths, entry: cm(4, 'SL'), captiveAdult: cm(8, 'SL') },
      growth: { asymptoticLength: cm(10, 'SL') },
    });
    expect([kind.entryCm?.centre, kind.adultCm?.centre, kind.asymptoticCm?.centre].map((length) => length?.toFixed(6))).toEqual([
      '5.200000',
      '10.400000',
      '13.000000',
    ]);
    const fromMaximum = kindWith({ size: { ...lengths, maximum: cm(10, 'SL') } });
    expect(fromMaximum.asymptoticCm?.centre).toBeCloseTo(asymptoticFromMaximum(13), DECIMALS);
  });

  it('millimetres and inches are read too', () => {
    expect(kindWith({ size: { captiveAdult: { value: 85, unit: 'mm', basis: 'practice' } } }).adultCm?.centre).toBeCloseTo(8.5, DECIMALS);
    expect(kindWith({ size: { captiveAdult: { value: 4, unit: '[in_i]', basis: 'practice' } } }).adultCm?.centre).toBeCloseTo(
      10.16,
      DECIMALS,
    );
  });

  it('an animal without a tail has one length only', () => {
    const shrimp = kindWith({ form: 'shrimp', size: { captiveAdult: cm(5) }, shape: { bodyDepth: { ...share(0.2), per: 'TL' } } });
    expect(shrimp.totalPerStandard).toEqual({ low: 1, centre: 1, high: 1, basis: 'measured' });
    expect(shrimp.depthPerTotal?.centre).toBe(0.2);
  });
});

describe('stand-ins', () => {
  it('the genus stands in before the family, the family where the genus is not known', () => {
    expect(kindWith({}, 'unus-primus').totalPerStandard?.centre).toBe(1.2);
    expect(kindWith({}, 'duo-primus').totalPerStandard?.centre).toBe(1.4);
    expect(kindWith({}, 'unus-primus').swallow?.centre).toBeCloseTo(1.2 * 0.15, DECIMALS);
    expect(kindWith({}, 'duo-primus').swallow?.centre).toBeCloseTo(1.2 * 0.1, DECIMALS);
  });

  it('a stand-in has the published error of standing in as its band, and counts as imputed', () => {
    const totalPerStandard = { value: 1, unit: '1', basis: 'measured', low: 1, high: 1, source: SOURCE.source } as const;
    const ofGenus = kindWith({ size: { totalPerStandard } }, 'unus-primus').depthPerTotal;
    expect(ofGenus?.basis).toBe('imputed');
    expect(ofGenus?.centre).toBeCloseTo(0.3, DECIMALS);
    expect(ofGenus?.high).toBeCloseTo(0.3 * spreadOf(0.19), DECIMALS);
    expect(ofGenus?.low).toBeCloseTo(0.3 / spreadOf(0.19), DECIMALS);
    const ofFamily = kindWith({ size: { totalPerStandard } }, 'duo-primus').depthPerTotal;
    expect(ofFamily?.high).toBeCloseTo(0.5 * spreadOf(0.35), DECIMALS);
  });

  it('without a published error the band is that of imputed values', () => {
    const rate = kindWith({ size: { captiveAdult: cm(8) } }).ratePerYear;
    expect(rate).toEqual({ low: 0.64, centre: 0.8, high: 1, basis: 'imputed' });
  });

  it('what the record says of the species itself comes first', () => {
    const kind = kindWith({
      size: { totalPerStandard: { value: 1.25, unit: '1', basis: 'practice' }, captiveAdult: cm(8) },
      growth: { rate: { value: 0.5, unit: '/a', basis: 'practice' } },
      shape: { bodyDepth: share(0.4) },
    });
    expect(kind.totalPerStandard?.centre).toBe(1.25);
    expect(kind.ratePerYear?.centre).toBe(0.5);
    expect(kind.depthPerTotal?.centre).toBeCloseTo(0.4 / 1.25, DECIMALS);
  });

  it('an imputed ratio in the record gives way to the stand-in, whose error is published', () => {
    const imputed = { value: 1.3, unit: '1', basis: 'imputed', from: 'family', source: SOURCE.source } as const;
    const kind = kindWith({ size: { totalPerStandard: imputed } });
    expect(kind.totalPerStandard).toMatchObject({ centre: 1.2, basis: 'imputed' });
    expect(kind.totalPerStandard?.high).toBeCloseTo(1.2 * spreadOf(0.08), DECIMALS);
    expect(kindOf(inventedSpecies('unus-primus', { size: { totalPerStandard: imputed } })).totalPerStandard?.centre).toBe(1.3);
  });

  it('without tables what is not in the record stays unknown', () => {
    const kind = kindOf(inventedSpecies('unus-primus'));
    for (const field of ['totalPerStandard', 'asymptoticCm', 'ratePerYear', 'adultCm', 'entryCm', 'swallow', 'depthPerTotal'] as const) {
      expect(kind[field]).toBeUndefined();
    }
  });
});

describe('growth', () => {
  it('a published asymptotic length is used as it is', () => {
    const kind = kindWith({ size: { maximum: cm(30) }, growth: { asymptoticLength: { ...cm(20), basis: 'recalled' } } });
    expect(kind.asymptoticCm).toMatchObject({ centre: 20, basis: 'recalled' });
  });

  it('without one it follows from the maximum, with the error of that formula on top, and counts as derived', () => {
    const { asymptoticCm } = kindWith({ size: { maximum: { low: 20, value: 20, high: 20, unit: 'cm', basis: 'derived', ...SOURCE } } });
    expect(asymptoticCm?.centre).toBe(asymptoticFromMaximum(20));
    expect(asymptoticCm?.basis).toBe('derived');
    expect(asymptoticCm?.high).toBeCloseTo(asymptoticFromMaximum(20) * 1.15, DECIMALS);
    expect(asymptoticCm?.low).toBeCloseTo(asymptoticFromMaximum(20) / 1.15, DECIMALS);
    expect(kindWith({ size: { maximum: { ...cm(20), basis: 'recalled' } } }).asymptoticCm?.basis).toBe('recalled');
  });

  it('the errors of the maximum and of the formula are independent', () => {
    const { asymptoticCm } = kindWith({ size: { maximum: { low: 15, value: 20, high: 30, unit: 'cm', basis: 'derived', ...SOURCE } } });
    const [centre, formula] = [asymptoticFromMaximum(20), Math.log(1.15)];
    const ofMaximum = (cm: number): number => Math.abs(Math.log(asymptoticFromMaximum(cm) / centre));
    expect(asymptoticCm?.high).toBeCloseTo(centre * Math.exp(Math.hypot(ofMaximum(30), formula)), DECIMALS);
    expect(asymptoticCm?.low).toBeCloseTo(centre / Math.exp(Math.hypot(ofMaximum(15), formula)), DECIMALS);
  });

  it('without a maximum either, the usual adult length stands for it; the formula is for fishes only', () => {
    expect(kindWith({ size: { captiveAdult: cm(8) } }).asymptoticCm?.centre).toBe(8);
    expect(kindWith({ form: 'shrimp', size: { maximum: cm(8), captiveAdult: cm(6) } }).asymptoticCm?.centre).toBe(6);
    expect(kindWith({ form: 'shrimp', size: { maximum: cm(8) } }).asymptoticCm).toBeUndefined();
  });

  it('the adult is the usual captive one where it is known, else the asymptotic length, never the record maximum', () => {
    expect(kindWith({ size: { maximum: cm(30), captiveAdult: cm(8) } }).adultCm?.centre).toBe(8);
    expect(kindWith({ size: { maximum: cm(30) }, growth: { asymptoticLength: cm(20) } }).adultCm?.centre).toBe(20);
  });

  it('a rate that nobody knows has a band as wide as families differ, and no rate is made up without a length', () => {
    const record = inventedSpecies('unus-primus', { size: { captiveAdult: cm(8) } });
    const rate = kindOf(record).ratePerYear;
    expect(rate?.basis).toBe('imputed');
    // From the slowest family median on record to the fastest there is a factor of 35; the central 80 % span over half of that.
    expect((rate?.high ?? 0) / (rate?.low ?? 1)).toBeGreaterThan(10);
    expect(kindWith({}).ratePerYear).toBeUndefined();
  });
});

describe('the mouth', () => {
  const swallowOf = (feeding: SpeciesRecord['feeding'], form: SpeciesRecord['form'] = 'fish', family = 'Alienidae'): number | undefined => {
    const record = inventedSpecies('alienus-primus', {
      form,
      taxon: { scientificName: 'Alienus primus', genus: 'Alienus', family },
      ...(feeding === undefined ? {} : { feeding }),
    });
    expect(speciesProblems(record)).toEqual([]);
    return kindOf(record, STAND_INS).swallow?.centre;
  };
  const mode = (value: NonNullable<NonNullable<SpeciesRecord['feeding']>['mode']>['value']): SpeciesRecord['feeding'] => ({
    mode: { value, basis: 'practice' },
  });

  it.each([
    ['plankton-picker', 0.1],
    ['filter-feeder', 0.1],
    ['grazer', 0.08],
    ['browser', 0.08],
    ['picker', 0.16],
    ['hunter', 0.16],
    ['ambusher', 0.16],
    ['sand-sifter', 0.16],
  ] as const)('a %s has the gape of its guild, %d', (value, gape) => {
    expect(swallowOf(mode(value))).toBe(gape);
  });

  it('an eater of fishes by habit has the gape of piscivores, however it feeds', () => {
    expect(swallowOf({ ...mode('plankton-picker'), fishEating: { value: 'habitual', basis: 'practice' } })).toBe(0.24);
    expect(swallowOf({ ...mode('picker'), fishEating: { value: 'opportunist', basis: 'practice' } })).toBe(0.16);
  });

  it('without a known way of feeding, and for animals that are no fishes, there is no guild', () => {
    expect(swallowOf(undefined)).toBeUndefined();
    expect(swallowOf(mode('picker'), 'shrimp')).toBeUndefined();
  });

  it('the guild comes before the jaw of relatives, the jaw of the species before the guild', () => {
    expect(swallowOf(mode('grazer'), 'fish', 'Exemplidae')).toBe(0.08);
    expect(swallowOf(undefined, 'fish', 'Exemplidae')).toBeCloseTo(0.12, DECIMALS);
    expect(kindWith({ feeding: mode('grazer') ?? {}, shape: { lowerJaw: share(0.2) } }).swallow).toMatchObject({ rung: 'lowerJaw' });
  });

  it('the jaw of a plankton picker tells of a narrower mouth, but not where it is not on record whether it eats fishes', () => {
    const jawed = (feeding: SpeciesRecord['feeding']): number | undefined =>
      kindWith({ feeding: feeding ?? {}, shape: { lowerJaw: share(0.2) } }).swallow?.centre;
    const noneRecorded = { fishEating: { value: 'noneRecorded', basis: 'practice' } } as const;
    expect(jawed({ ...mode('plankton-picker'), ...noneRecorded })).toBeCloseTo(0.24 * 0.81, DECIMALS);
    expect(jawed(mode('plankton-picker'))).toBeCloseTo(0.24, DECIMALS);
    expect(jawed({ ...mode('picker'), ...noneRecorded })).toBeCloseTo(0.24, DECIMALS);
    expect(jawed({ ...mode('plankton-picker'), fishEating: { value: 'habitual', basis: 'practice' } })).toBeCloseTo(0.24, DECIMALS);
  });

  it('a long snout passes over jaws', () => {
    const snout = { lowerJaw: share(0.4), longSnout: { value: true, basis: 'practice' } } as const;
    expect(kindWith({ shape: snout }).swallow).toBeUndefined();
    expect(kindWith({ shape: snout, feeding: mode('picker') ?? {} }).swallow).toMatchObject({ rung: 'guildGape', centre: 0.16 });
  });
});

describe('what is passed on', () => {
  it('kin group, or the family in lower case', () => {
    expect(kindWith({ kinGroup: { value: 'small-examples', basis: 'practice' } }).kinGroup).toBe('small-examples');
    expect(kindWith({}).kinGroup).toBe('exemplidae');
  });

  it('ranges of water are taken as they stand, not widened by their basis', () => {
    const kind = kindWith({ needs: { temperature: { low: 24, high: 27, unit: 'Cel', basis: 'recalled' } } });
    expect(kind.temperatureCel).toEqual({ low: 24, centre: 25.5, high: 27, basis: 'recalled' });
    expect(kind.salinity).toBeUndefined();
    const single = kindWith({ needs: { temperature: { value: 25, unit: 'Cel', basis: 'recalled' } } });
    expect(single.temperatureCel).toEqual({ low: 25, centre: 25, high: 25, basis: 'recalled' });
  });
});

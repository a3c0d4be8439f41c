/**
 * Who can swallow whom, against swallow trials [mihalitsis-bellwood-2017], measured gapes and stomach contents
 * [dunic-baum-2017], museum measures [price-2022] and grouper fry [hseu-2004].
 */
import {
  canSwallow,
  gape,
  GAPE_PER_JAW,
  libraryOf,
  PLANKTIVORE_WIDTH_PER_HEIGHT,
  type StockKind,
  stockOf,
  swallowLimit,
} from '@commensal/core';
import type { Situation } from '@commensal/schema';
import { records, release, standIns } from '@commensal/species-sample';
import { describe, expect, it } from 'vitest';

const LIBRARY = libraryOf(records, standIns, release);

function kind(species: string): StockKind {
  const situation: Situation = {
    $schema: 'https://commensal.example/schema/1.0/situation.schema.json',
    date: '2027-03-01',
    tank: { water: { value: 240, unit: 'L' } },
    wishes: [{ species }],
  };
  const found = stockOf(situation, LIBRARY).stock.wishes[0]?.kind;
  if (found === undefined) throw new Error(`no record of ${species}`);
  return found;
}

/** Body depth over standard length, as the museum measures are. */
const depthPerStandard = (species: string): number => {
  const { depthPerTotal, totalPerStandard } = kind(species);
  return (depthPerTotal?.centre ?? Number.NaN) * (totalPerStandard?.centre ?? Number.NaN);
};

describe('swallow trials (Mihalitsis & Bellwood 2017, PLoS ONE 12(9):e0184679)', () => {
  // Greatest prey body depth taken, as a share of the predator's standard length.
  it.each([
    ['cephalopholis-urodeta', 0.27, 3.24],
    ['paracirrhites-forsteri', 0.2, 2.4],
  ])('%s takes prey as deep as %d of its standard length: %d cm at 12 cm', (species, share, depthAt12) => {
    const { swallow } = kind(species);
    expect(swallow).toMatchObject({ rung: 'swallowTrial', centre: share });
    // Ten decimals: a product of two decimal fractions.
    expect((swallow?.centre ?? 0) * 12).toBeCloseTo(depthAt12, 10);
    expect(canSwallow(12, swallow?.centre ?? 0, depthAt12 - 0.01, 5)).toBe(true);
    expect(canSwallow(12, swallow?.centre ?? 0, depthAt12 + 0.01, 5)).toBe(false);
  });

  // Depths of museum specimens over standard length: A. ocellaris .439, Z. flavescens .607, N. magnifica .207 (FishShapes v1, Price et al. 2022).
  it.each([
    ['cephalopholis-urodeta', 'amphiprion-ocellaris', 0.61],
    ['cephalopholis-urodeta', 'zebrasoma-flavescens', 0.44],
    ['paracirrhites-forsteri', 'amphiprion-ocellaris', 0.46],
  ])('%s takes %s of up to %d of its own standard length', (predator, prey, share) => {
    const limit = kind(predator).swallow?.centre ?? Number.NaN;
    // A hundredth: the shares are given in whole per cent, cut or rounded.
    expect(Math.abs(limit / depthPerStandard(prey) - share)).toBeLessThanOrEqual(0.01);
  });

  it('by depth alone Cephalopholis urodeta would take a Nemateleotris magnifica longer than itself, so length must count too', () => {
    const limit = kind('cephalopholis-urodeta').swallow?.centre ?? Number.NaN;
    expect(limit / depthPerStandard('nemateleotris-magnifica')).toBeGreaterThan(1);
    expect(canSwallow(12, limit, depthPerStandard('nemateleotris-magnifica') * 12, 14)).toBe(false);
  });
});

/** Median gape width over standard length of fresh fish; Dunic & Baum 2017, Journal of Animal Ecology. */
const MEASURED_GAPE = [
  ['Cephalopholis urodeta', 'genus', 'Cephalopholis', 0.268],
  ['Cephalopholis argus', 'genus', 'Cephalopholis', 0.293],
  ['Variola louti', 'family', 'Epinephelidae', 0.239],
  ['Paracirrhites arcatus', 'family', 'Cirrhitidae', 0.216],
  ['Acanthurus nigricans', 'genus', 'Acanthurus', 0.062],
  ['Acanthurus olivaceus', 'genus', 'Acanthurus', 0.064],
  ['Centropyge flavissima', 'family', 'Pomacanthidae', 0.081],
  ['Chromis vanderbilti', 'family', 'Pomacentridae', 0.066],
] as const;

describe('1.2 times the lower jaw against measured gapes (Dunic & Baum 2017; jaws of FishShapes v1, Price et al. 2022)', () => {
  const limitFromJaw = (rank: 'genus' | 'family', name: string): NonNullable<ReturnType<typeof swallowLimit>> => {
    const jaw = standIns.groups.find((group) => group.rank === rank && group.name === name)?.lowerJaw?.value;
    const error = standIns.errors.find((entry) => entry.rank === rank && entry.figure === 'lowerJaw')?.percentile90;
    if (jaw === undefined || error === undefined) throw new Error(`no jaw of ${name}`);
    const limit = swallowLimit({ relativesJaw: { low: jaw / (1 + error), centre: jaw, high: jaw * (1 + error), basis: 'imputed' } });
    if (limit === undefined) throw new Error(`no limit of ${name}`);
    return limit;
  };

  it.each(MEASURED_GAPE)(
    'the gape of %s does not exceed the upper end of what the jaw of its %s %s says: %d',
    (_, rank, name, gapeWidth) => {
      expect(gapeWidth).toBeLessThanOrEqual(limitFromJaw(rank, name).high);
    },
  );

  it.each(MEASURED_GAPE.filter(([species]) => species !== 'Chromis vanderbilti'))(
    'the gape of %s lies within nine tenths of the errors of the jaw of its %s %s: %d',
    (_, rank, name, gapeWidth) => {
      expect(gapeWidth).toBeGreaterThanOrEqual(limitFromJaw(rank, name).low);
    },
  );

  it('of a damselfish that picks plankton it makes too much, which errs to the side of the prey', () => {
    // Its mouth is protruded to a tube; 1.2 was taken from the median over fishes of all kinds.
    expect(0.066).toBeLessThan(limitFromJaw('family', 'Pomacentridae').low);
  });

  it('over these fishes the median of gape over jaw is near the 1.18 of 17 species, which 1.2 is rounded from', () => {
    const ratios = MEASURED_GAPE.map(([, rank, name, gapeWidth]) => gapeWidth / (limitFromJaw(rank, name).centre / 1.2)).sort(
      (one, other) => one - other,
    );
    const median = ((ratios[3] as number) + (ratios[4] as number)) / 2;
    // Jaws here are those of genus or family, off by 10 to 12 % in the median; with their own jaws 17 species give 1.18.
    expect(Math.abs(median / 1.18 - 1)).toBeLessThanOrEqual(0.12);
  });
});

describe('open mouths, height and width over standard length (guild medians, Dunic & Baum 2017)', () => {
  it.each([
    ['fish-eaters', 0.227, 0.237, 1],
    ['invertebrate-eaters', 0.162, 0.16, 1],
    ['plankton pickers', 0.122, 0.099, PLANKTIVORE_WIDTH_PER_HEIGHT],
  ])('%s: %d high and %d wide, counted as %d', (_, height, width, counted) => {
    // Half a hundredth for those rounded to two decimals; 0.04 where a mouth a little wider than high counts as round.
    expect(Math.abs(width / height - counted)).toBeLessThanOrEqual(counted === 1 ? 0.05 : 0.005);
  });

  // Medians of single species, width over standard length; jaws of Chromis (family) and Pseudanthias squamipinnis (0.1384), Price et al. 2022.
  it.each([
    ['Chromis vanderbilti', 0.066, 0.0953],
    ['Pseudanthias olivaceus', 0.121, 0.1384],
    ['Pseudanthias dispar', 0.144, 0.1384],
  ])('of %s, %d, the jaw of its relatives, %d, tells better as a plankton picker than as any fish', (_, width, jaw) => {
    const limitOf = (picksPlankton: boolean): number =>
      swallowLimit({ relativesJaw: { low: jaw, centre: jaw, high: jaw, basis: 'imputed' }, picksPlankton })?.centre ?? Number.NaN;
    expect(limitOf(false)).toBeCloseTo(jaw * GAPE_PER_JAW, 10);
    expect(Math.abs(Math.log(width / limitOf(true)))).toBeLessThan(Math.abs(Math.log(width / limitOf(false))));
  });

  it('records that take their gape from other species of their genus hold the published medians', () => {
    const gapeOf = (id: string) => records.find((record) => record.id === id)?.shape?.gapeWidth;
    for (const width of [0.121, 0.144]) {
      for (const id of ['pseudanthias-squamipinnis', 'pseudanthias-bartlettorum']) {
        expect(gapeOf(id)?.low).toBeLessThanOrEqual(width);
        expect(gapeOf(id)?.high).toBeGreaterThanOrEqual(width);
      }
    }
    expect(gapeOf('chromis-viridis')?.value).toBe(0.066);
  });
});

describe('the guild medians (Dunic & Baum 2017) hold the species they are made of', () => {
  // Median gape width over standard length of single species of each guild.
  it.each([
    ['piscivore', 'Cephalopholis urodeta', 0.268],
    ['piscivore', 'Cephalopholis argus', 0.293],
    ['piscivore', 'Lutjanus bohar', 0.219],
    ['invertivore', 'Paracirrhites arcatus', 0.216],
    ['invertivore', 'Monotaxis grandoculis', 0.156],
    ['planktivore', 'Pseudanthias olivaceus', 0.121],
    ['planktivore', 'Chromis vanderbilti', 0.066],
    ['grazer', 'Centropyge flavissima', 0.081],
    ['grazer', 'Acanthurus nigricans', 0.062],
  ])('%s: %s, %d, is under the upper end', (guild, _, gapeWidth) => {
    const value = standIns.groups.find((group) => group.rank === 'guild' && group.name === guild)?.gapeWidth?.value;
    const error = standIns.errors.find((entry) => entry.rank === 'guild' && entry.figure === 'gapeWidth')?.percentile90;
    expect(value).toBeDefined();
    expect(gapeWidth).toBeLessThanOrEqual((value ?? 0) * (1 + (error ?? 0)));
  });
});

describe('fish found in stomachs (Dunic & Baum 2017: 86 prey, length over the standard length of the predator)', () => {
  it.each([
    ['of all predators, Variola louti, 258 mm in 414 mm', 0.62],
    ['of Cephalopholis urodeta', 0.55],
    ['of Lutjanus bohar', 0.49],
    ['of Cephalopholis argus', 0.48],
    ['of Paracirrhites arcatus', 0.3],
  ])('the longest %s, %d, is within the cap on length', (_, share) => {
    // As slender as can be, so that the cap alone decides.
    expect(canSwallow(10, 0.25, 0.01, share * 10)).toBe(true);
  });

  it('the cap is 0.70: above the longest of 86, and not far above', () => {
    expect(gape.defaults.longestShare.value).toBe(0.7);
    expect(canSwallow(10, 0.25, 0.01, 7.01)).toBe(false);
  });
});

describe('grouper fry that eat their siblings contradict the cap on length (Hseu et al. 2004, Fisheries Science 70:482-486; Aquaculture Research doi 10.1111/are.12031)', () => {
  // Longest prey in mm of total length, by the total length of the fry.
  const FORMULAS = [
    ['Epinephelus lanceolatus', 0.83, -2.48],
    ['Epinephelus coioides', 0.8, -1.5],
  ] as const;
  /** Total over standard length of groupers, Dunic & Baum 2017. */
  const totalPerStandard = standIns.groups.find((group) => group.name === 'Epinephelidae')?.totalPerStandard?.value ?? Number.NaN;
  /** Fry of 3 to 10 cm. */
  const LENGTHS_MM = [30, 50, 70, 100];

  it.each(FORMULAS)('%s takes prey of more than 0.70 of its standard length, so the cap is no law of nature', (_, slope, intercept) => {
    for (const mm of LENGTHS_MM)
      expect((slope * mm + intercept) / (mm / totalPerStandard)).toBeGreaterThan(gape.defaults.longestShare.value);
  });

  it.each(FORMULAS)(
    '%s takes none longer than itself without its tail: the doubt between 0.70 and 1.0 covers it',
    (_, slope, intercept) => {
      for (const mm of LENGTHS_MM) {
        expect((slope * mm + intercept) / (mm / totalPerStandard)).toBeLessThanOrEqual(gape.defaults.longestShareAtMost.value);
      }
    },
  );
});

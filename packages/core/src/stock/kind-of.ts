import type { Length, ShapeRatio, SpeciesRecord, StandIns } from '@commensal/schema';
import { asymptoticFromMaximum } from '../biology/asymptotic-length.js';
import { type Mouth, swallowLimit } from '../biology/swallow-limit.js';
import { type Band, bandOf, exactly, type Quantity } from '../quantity/band.js';
import { weakest } from '../quantity/basis.js';
import { together } from '../quantity/log-errors.js';
import { ratioOf } from '../quantity/ratio.js';
import type { Pugnacity, StockKind } from './stock.js';
import { type StandInFigure, standIn } from './stand-ins.js';

/** A length formula fitted over many families is off by about this factor for one species (our choice; no published figure seen). */
const FROESE_BINOHLAN_SPREAD = 1.15;

/**
 * Growth where neither the species nor its family has a rate: the median of all reef fishes in the family medians of Morais &
 * Bellwood 2018, with a band as wide as those medians spread (0.08 to 2.8 a year).
 */
export const ANY_GROWTH_RATE: Band = { low: 0.15, centre: 0.57, high: 2.2, basis: 'imputed' };

/** Limits hold for bodies as they are; what squeezing adds is for the rule to say. */
const UNSQUEEZED = 1;

/** A species record as rules see it: units and length types converted, stand-ins filled in with their error. */
export function kindOf(record: SpeciesRecord, standIns?: StandIns): StockKind {
  const totalPerStandard = totalPerStandardOf(record, standIns);
  const asymptoticCm = asymptoticOf(record, totalPerStandard);
  const captiveAdult = lengthOf(record.size?.captiveAdult, record, totalPerStandard);
  return {
    id: record.id,
    record,
    genus: record.taxon.genus,
    family: record.taxon.family,
    kinGroup: record.kinGroup?.value ?? record.taxon.family.toLowerCase(),
    form: record.form,
    totalPerStandard,
    asymptoticCm: asymptoticCm ?? captiveAdult,
    ratePerYear: asymptoticCm === undefined && captiveAdult === undefined ? undefined : rateOf(record, standIns),
    adultCm: captiveAdult ?? asymptoticCm,
    entryCm: lengthOf(record.size?.entry, record, totalPerStandard),
    gapeClass: record.shape?.gapeClass?.value,
    swallow: swallowLimit(mouthOf(record, standIns), UNSQUEEZED),
    depthPerTotal: depthOf(record, standIns, totalPerStandard),
    defendedPerTotal: record.shape?.defendedDepth === undefined ? undefined : perTotal(record.shape.defendedDepth, totalPerStandard),
    rockClaimL: band(record.conduct?.rockClaim, 'L'),
    wayOfLiving: record.conduct?.wayOfLiving?.value,
    pugnacity: pugnacityOf(record),
    resembles: record.conduct?.resembles?.species ?? NOBODY,
    temperatureCel: band(record.needs?.temperature, 'Cel', 1),
    temperatureLimitsCel: band(record.needs?.temperatureLimits, 'Cel', 1),
    salinity: band(record.needs?.salinity, '1', 1),
    acidity: band(record.needs?.acidity, '[pH]', 1),
  };
}

const NOBODY: readonly string[] = [];

function pugnacityOf({ conduct }: SpeciesRecord): Pugnacity | undefined {
  if (conduct?.pugnacity === undefined) return undefined;
  const { ownKind, genus, kin, others, newcomers, lookAlikes, smaller, maleToMale, femaleToFemale, maleToFemale, basis } =
    conduct.pugnacity;
  return { ownKind, genus, kin, others, newcomers, lookAlikes, smaller, maleToMale, femaleToFemale, maleToFemale, basis };
}

function band(quantity: Quantity | undefined, unit: string, spread?: number): Band | undefined {
  return quantity === undefined ? undefined : bandOf(quantity, unit, spread);
}

/** Animals without a tail fin have one length only. */
const hasTail = (record: SpeciesRecord): boolean => record.form === 'fish';

function totalPerStandardOf(record: SpeciesRecord, standIns: StandIns | undefined): Band | undefined {
  if (!hasTail(record)) return exactly(1);
  const own = record.size?.totalPerStandard;
  if (own !== undefined && own.basis !== 'imputed') return bandOf(own, '1');
  return relatives(record, standIns, 'totalPerStandard') ?? band(own, '1');
}

/**
 * A body length as total length in cm; undefined where it is not known or its type cannot be converted.
 *
 * @example
 * lengthOf({ value: 10, unit: 'cm', lengthType: 'SL', basis: 'measured' }, record, exactly(1.3))?.centre; // 13
 */
export function lengthOf(length: Length | undefined, record: SpeciesRecord, totalPerStandard: Band | undefined): Band | undefined {
  if (length === undefined) return undefined;
  const read = bandOf(length, 'cm');
  const type = length.lengthType ?? 'TL';
  if (type === 'SL') return totalPerStandard === undefined ? undefined : productOf(read, totalPerStandard);
  if (type === 'FL') {
    const totalPerFork = band(record.size?.totalPerFork, '1');
    return totalPerFork === undefined ? undefined : productOf(read, totalPerFork);
  }
  return read;
}

const productOf = (one: Band, other: Band): Band => ratioOf(one, ratioOf(exactly(1), other));

function asymptoticOf(record: SpeciesRecord, totalPerStandard: Band | undefined): Band | undefined {
  const own = lengthOf(record.growth?.asymptoticLength, record, totalPerStandard);
  if (own !== undefined) return own;
  const maximum = lengthOf(record.size?.maximum, record, totalPerStandard);
  if (maximum === undefined || !hasTail(record)) return undefined;
  const centre = asymptoticFromMaximum(maximum.centre);
  const formula = Math.log(FROESE_BINOHLAN_SPREAD);
  return {
    low: centre / Math.exp(together(Math.log(centre / asymptoticFromMaximum(maximum.low)), formula)),
    centre,
    high: centre * Math.exp(together(Math.log(asymptoticFromMaximum(maximum.high) / centre), formula)),
    basis: weakest('derived', maximum.basis),
  };
}

function rateOf(record: SpeciesRecord, standIns: StandIns | undefined): Band {
  const own = band(record.growth?.rate, '/a');
  return own ?? relatives(record, standIns, 'growthRate') ?? ANY_GROWTH_RATE;
}

function relatives(record: SpeciesRecord, standIns: StandIns | undefined, figure: StandInFigure): Band | undefined {
  return standIn(standIns, 'genus', record.taxon.genus, figure) ?? standIn(standIns, 'family', record.taxon.family, figure);
}

/** Shape ratios count per standard length unless they say otherwise; animals without a tail have one length only. */
function perTotal(ratio: ShapeRatio, totalPerStandard: Band | undefined): Band | undefined {
  const read = bandOf(ratio, '1');
  if ((ratio.per ?? 'SL') !== 'SL') return read;
  return totalPerStandard === undefined ? undefined : ratioOf(read, totalPerStandard);
}

/**
 * Body depth over total length. Prey lie on their side in the mouth, so that the depth has to pass; a body that is wider than
 * deep is turned, and again the depth, now the smaller of the two, decides.
 */
function depthOf(record: SpeciesRecord, standIns: StandIns | undefined, totalPerStandard: Band | undefined): Band | undefined {
  const own = record.shape?.bodyDepth;
  if (own !== undefined) return perTotal(own, totalPerStandard);
  const stand = relatives(record, standIns, 'bodyDepth');
  return stand === undefined || totalPerStandard === undefined ? undefined : ratioOf(stand, totalPerStandard);
}

function mouthOf(record: SpeciesRecord, standIns: StandIns | undefined): Mouth {
  const shape = record.shape;
  const perStandard = (ratio: ShapeRatio | undefined): Band | undefined =>
    ratio === undefined || (ratio.per ?? 'SL') !== 'SL' ? undefined : bandOf(ratio, '1');
  const guild = guildOf(record);
  return {
    swallowTrial: perStandard(shape?.swallowTrial),
    gapeWidth: perStandard(shape?.gapeWidth),
    lowerJaw: perStandard(shape?.lowerJaw),
    guildGape: guild === undefined ? undefined : standIn(standIns, 'guild', guild, 'gapeWidth'),
    relativesJaw: relatives(record, standIns, 'lowerJaw'),
    longSnout: shape?.longSnout?.value,
    // Where it is not on record whether it eats fishes, its mouth counts as wide: a gap must not make a danger smaller.
    picksPlankton: record.feeding?.fishEating !== undefined && guild === 'planktivore',
  };
}

/** The feeding guild whose median gape stands in where the mouth is not measured. */
export function guildOf(record: SpeciesRecord): 'piscivore' | 'invertivore' | 'planktivore' | 'grazer' | undefined {
  if (record.form !== 'fish') return undefined;
  if (record.feeding?.fishEating?.value === 'habitual') return 'piscivore';
  switch (record.feeding?.mode?.value) {
    case undefined:
      return undefined;
    case 'plankton-picker':
    case 'filter-feeder':
      return 'planktivore';
    case 'grazer':
    case 'browser':
      return 'grazer';
    default:
      return 'invertivore';
  }
}

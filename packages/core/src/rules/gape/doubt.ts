import { logDown, logUp, together } from '../../quantity/log-errors.js';
import type { Band } from '../../quantity/band.js';
import type { StockAnimal, StockKind } from '../../stock/stock.js';
import { isEntryLengthGuessed, type LengthBook, type LogLength } from './lengths.js';
import { type Pairing, standsBetween } from './pairing.js';
import { depthOffered } from './sides.js';

/** What a doubt hangs on, and the measurement that would settle it soonest. */
export interface Doubt {
  /** `longBody`: the length lies between the caps whatever is measured; then the field is the prey's length, of which more is safe. */
  readonly about: 'mouth' | 'body' | 'length' | 'longBody';
  /** A field of the record or the situation. */
  readonly field: string;
  readonly of: StockAnimal;
}

interface Source extends Doubt {
  readonly error: number;
}

/** The doubt on a day. */
export function doubtOn(pairing: Pairing, predator: StockAnimal, prey: StockAnimal, day: number, lengths: LengthBook): Doubt {
  const ofPredator = lengths(predator, day);
  const ofPrey = lengths(prey, day);
  const sharedCurve = predator.kind.id === prey.kind.id;
  const long = lengthErrors(predator, ofPredator, 'up', sharedCurve);
  const short = lengthErrors(prey, ofPrey, 'down', sharedCurve);
  return weightiest(pairing, predator, prey, ofPredator.log - ofPrey.log, [...long, ...short]);
}

/** The doubt at full size, where of lengths only the asymptotic ones are uncertain. */
export function doubtAtFullSize(pairing: Pairing, predator: StockAnimal, prey: StockAnimal): Doubt {
  const sharedCurve = predator.kind.id === prey.kind.id;
  const error = (band: Band | undefined, way: (band: Band) => number): number => (band === undefined || sharedCurve ? 0 : way(band));
  const field = 'growth.asymptoticLength';
  return weightiest(pairing, predator, prey, Math.log(pairing.predatorFullCm / pairing.preyFullCm), [
    { about: 'length', field, of: predator, error: error(predator.kind.asymptoticCm, logUp) },
    { about: 'length', field, of: prey, error: error(prey.kind.asymptoticCm, logDown) },
  ]);
}

/**
 * Of the conditions that the prey's safety hangs on, mouth and length, the one that is nearer to holding for sure; and of its
 * errors the greatest, as that is the one whose measurement would turn the doubt first.
 */
function weightiest(pairing: Pairing, predator: StockAnimal, prey: StockAnimal, logLengths: number, ofLengths: readonly Source[]): Doubt {
  const { kind } = predator;
  const standard: Source = {
    about: 'length',
    field: 'size.totalPerStandard',
    of: predator,
    error: kind.totalPerStandard === undefined ? 0 : logDown(kind.totalPerStandard),
  };
  const greatest = (sources: readonly Source[]): Source | undefined =>
    // Errors that differ by rounding alone are even, so that units of the input do not decide which is named.
    sources.reduce<Source | undefined>((most, source) => (source.error > (most?.error ?? 0) + 1e-9 ? source : most), undefined);
  if (standsBetween(pairing, logLengths) === 'length') {
    const sources = [...ofLengths, standard];
    const reach = together(...sources.map(({ error }) => error));
    const turns = logLengths - reach < Math.log(pairing.lengthRatioAtWorst) || logLengths + reach >= Math.log(pairing.lengthRatio);
    return (turns ? greatest(sources) : undefined) ?? { about: 'longBody', field: lengthField(prey), of: prey };
  }
  const depth = depthOffered(prey.kind);
  const most = greatest([
    { about: 'mouth', field: mouthField(kind), of: predator, error: pairing.limitError },
    { about: 'body', field: depth.field, of: prey, error: depth.perTotal === undefined ? 0 : logDown(depth.perTotal) },
    standard,
    ...ofLengths,
  ]);
  return most ?? { about: 'mouth', field: 'shape.swallowTrial', of: predator };
}

/** What is surer than what is known of the mouth. */
const mouthField = ({ gapeClass, swallow }: StockKind): string =>
  gapeClass === 'distensible' || swallow?.rung === 'gapeWidth' || swallow?.rung === 'swallowTrial'
    ? 'shape.swallowTrial'
    : 'shape.gapeWidth';

const lengthField = (animal: StockAnimal): string => (isEntryLengthGuessed(animal) ? 'size.entry' : 'length');

/** The error of a length on a day, apart for the length that it started from and for growth since. */
function lengthErrors(animal: StockAnimal, length: LogLength, way: 'up' | 'down', sharedCurve: boolean): Source[] {
  const ofStart = way === 'up' ? length.startUp : length.startDown;
  const all = way === 'up' ? length.up : length.down;
  const ofGrowth = sharedCurve ? 0 : Math.sqrt(Math.max(0, all * all - ofStart * ofStart));
  return [
    { about: 'length', field: lengthField(animal), of: animal, error: ofStart },
    { about: 'length', field: 'growth', of: animal, error: ofGrowth },
  ];
}

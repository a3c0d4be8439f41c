import { lengthAfter } from '../../biology/length-after.js';
import type { Band } from '../../quantity/band.js';
import { yearsSince } from '../../rules/gape/lengths.js';
import type { GapeOptions } from '../../rules/gape/options.js';
import { limitOf, ROUNDING } from '../../rules/gape/sides.js';
import type { StockKind } from '../../stock/stock.js';
import { type BandColumns, type Columns, isOne } from './columns.js';
import { needEnds, type Places } from './places.js';
import type { SwallowingPair } from './swallowing-pairs.js';

/** What mouths and bodies are in a scenario, animal by animal. */
export interface MouthsAndBodies {
  readonly bands: Readonly<Record<'length' | 'asymptote' | 'rate' | 'adult' | 'standard' | 'swallow' | 'depth' | 'defended', BandColumns>>;
  /** Those that swallow, and those that may be swallowed; and the scenario that each was taken in for. */
  readonly swallows: Uint8Array;
  readonly isBody: Uint8Array;
  readonly loadedIn: Float64Array;
  readonly stretches: Uint8Array;
  /** Shares of standard length up to which prey is swallowed, at the centre and at the end less favourable to the prey. */
  readonly share: Float64Array;
  readonly shareAtMost: Float64Array;
  readonly squeeze: Float64Array;
  readonly stretched: Band;
  /** Years of growth up to the horizon; and the place at which other rules have its length worked out then, -1 where none has. */
  readonly yearsInAll: Float64Array;
  readonly places: Places | undefined;
  readonly horizon: Int32Array;
  /** Asymptotic length, or its own of an animal that is longer; full size; length at the horizon, save for rounding. */
  readonly end: Float64Array;
  readonly full: Float64Array;
  readonly atHorizon: Float64Array;
  /** Swallow limit over total length; how many times as long as its prey a swallower must be for its length alone, and at the end less favourable to the prey. */
  readonly limitPer: Float64Array;
  readonly capRatio: Float64Array;
  readonly capAtWorst: Float64Array;
  /** Body depth over total length, and its lower end. */
  readonly depth: Float64Array;
  readonly depthLow: Float64Array;
  /** No body deeper or longer than these is ever swallowed, and no body is ever less deep or shorter. */
  readonly deepest: Float64Array;
  readonly longest: Float64Array;
  readonly shallowest: Float64Array;
  readonly shortest: Float64Array;
  /** How many times as long as the prey the predator has to be, of the pair that is looked at: a number that is handed over would become an object. */
  readonly asked: Float64Array;
}

/** A little more than one: what lies between is left to the rule itself. */
const OVER = 1 + ROUNDING;

/** Those that take part in some pair, and what does not vary of them. */
export function mouthsAndBodies(
  { stock, ofAnimals }: Columns,
  places: Places | undefined,
  options: GapeOptions,
  pairs: readonly SwallowingPair[],
): MouthsAndBodies {
  const { animals } = stock;
  const column = (): Float64Array => new Float64Array(animals.length);
  const known = pairs.filter(({ isGap }) => !isGap);
  const isDistensible = ({ gapeClass }: StockKind): boolean => gapeClass === 'distensible';
  const byMouth = (ordinary: number, distensible: number): Float64Array =>
    Float64Array.from(animals, ({ kind }) => (isDistensible(kind) ? distensible : ordinary));
  return {
    bands: {
      length: ofAnimals('length'),
      asymptote: ofAnimals('asymptote'),
      rate: ofAnimals('rate'),
      adult: ofAnimals('adult'),
      standard: ofAnimals('standard'),
      swallow: ofAnimals('swallow'),
      depth: ofAnimals('depth'),
      defended: ofAnimals('defended'),
    },
    swallows: Uint8Array.from(animals, (_, at) => (known.some(({ predator }) => predator === at) ? 1 : 0)),
    isBody: Uint8Array.from(animals, (_, at) => (known.some(({ prey }) => prey === at) ? 1 : 0)),
    loadedIn: column(),
    stretches: Uint8Array.from(animals, ({ kind }) => (isDistensible(kind) ? 1 : 0)),
    share: byMouth(options.longestShare, options.distensibleLongestShare),
    shareAtMost: byMouth(options.longestShareAtMost, options.distensibleLongestShareAtMost),
    // A stretching mouth has squeezing in its limit already.
    squeeze: byMouth(options.squeeze, 1),
    stretched: limitOf({ gapeClass: 'distensible' } as StockKind, options) as Band,
    yearsInAll: Float64Array.from(animals, (animal) => yearsSince(animal, stock.horizonDay)),
    places,
    horizon: Int32Array.from(animals, (_, at) => places?.horizonOf(at) ?? -1),
    end: column(),
    full: column(),
    atHorizon: column(),
    limitPer: column(),
    capRatio: column(),
    capAtWorst: column(),
    depth: column(),
    depthLow: column(),
    deepest: column(),
    longest: column(),
    shallowest: column(),
    shortest: column(),
    asked: new Float64Array(1),
  };
}

/** Takes in what an animal is in a scenario. */
export function load(all: MouthsAndBodies, at: number, scenario: number): void {
  all.loadedIn[at] = scenario;
  loadLine(all, at);
  if (all.swallows[at] === 1) loadMouth(all, at);
  if (all.isBody[at] === 1) loadBody(all, at);
}

/** What an animal is in all its pairs. */
function loadLine(all: MouthsAndBodies, at: number): void {
  const { bands, yearsInAll, places, horizon, end, full, atHorizon } = all;
  const { length, asymptote, rate, adult } = bands;
  const start = length.centre[at] as number;
  const asymptotic = asymptote.centre[at] as number;
  end[at] = Math.max(asymptotic, start);
  // What has an asymptotic length has an adult length.
  full[at] = Math.max(asymptotic, adult.centre[at] as number, start);
  const place = horizon[at] as number;
  if (places === undefined || place < 0) {
    atHorizon[at] = lengthAfter(start, asymptotic, rate.centre[at] as number, yearsInAll[at] as number);
    return;
  }
  needEnds(places);
  atHorizon[at] = places.lengths[place] as number;
}

function loadMouth(all: MouthsAndBodies, at: number): void {
  const { bands, stretches, stretched, share, shareAtMost, squeeze, full, limitPer, capRatio, capAtWorst, deepest, longest } = all;
  const { length, asymptote, standard, swallow } = bands;
  const centre = stretches[at] === 1 ? stretched.centre : (swallow.centre[at] as number);
  const high = stretches[at] === 1 ? stretched.high : (swallow.high[at] as number);
  const perStandard = standard.centre[at] as number;
  limitPer[at] = centre / perStandard;
  capRatio[at] = perStandard / (share[at] as number);
  capAtWorst[at] = perStandard / (shareAtMost[at] as number);
  // Errors are laid on in turn: no less than the root of their squares.
  const errors = ((squeeze[at] as number) * high * perStandard) / (centre * (standard.low[at] as number));
  const asymptoticHigh = asymptote.high[at] as number;
  const ofFull = isOne(asymptote, at) ? (full[at] as number) : ((full[at] as number) * asymptoticHigh) / (asymptote.centre[at] as number);
  const top = Math.max(length.high[at] as number, asymptoticHigh, ofFull);
  deepest[at] = top * (limitPer[at] as number) * errors * OVER;
  longest[at] = (top / Math.min(capRatio[at] as number, capAtWorst[at] as number)) * OVER;
}

function loadBody({ bands, full, depth, depthLow, shallowest, shortest }: MouthsAndBodies, at: number): void {
  const { length, asymptote, depth: rest, defended } = bands;
  const raised = defended.centre[at] as number;
  const atRest = rest.centre[at] as number;
  const isRaised = raised > (Number.isNaN(atRest) ? 0 : atRest);
  depth[at] = isRaised ? raised : atRest;
  depthLow[at] = (isRaised ? defended.low[at] : rest.low[at]) as number;
  const ofFull = isOne(asymptote, at)
    ? (full[at] as number)
    : ((full[at] as number) * (asymptote.low[at] as number)) / (asymptote.centre[at] as number);
  const least = Math.min(length.low[at] as number, ofFull);
  shallowest[at] = least * (depthLow[at] as number);
  shortest[at] = least;
}

/** Whether nothing is off of how long an animal is and will be. */
export const isSureOfLength = ({ bands: { length, asymptote, rate } }: MouthsAndBodies, at: number): boolean =>
  isOne(length, at) && isOne(asymptote, at) && isOne(rate, at);

/** Upper bound of the factor by which the errors of mouth and body make a body fit that does not at the centre. */
export function fitFactor(all: MouthsAndBodies, predator: number, prey: number): number {
  const { bands, stretches, stretched, squeeze, depth, depthLow } = all;
  const { swallow, standard } = bands;
  const isStretching = stretches[predator] === 1;
  const mouth = isStretching
    ? stretched.high / stretched.centre
    : (swallow.high[predator] as number) / (swallow.centre[predator] as number);
  const ofStandard = (standard.centre[predator] as number) / (standard.low[predator] as number);
  const ofDepth = (depth[prey] as number) / (depthLow[prey] as number);
  const squeezed = squeeze[predator] as number;
  // Mostly one of them is off alone.
  if (ofStandard === 1 && ofDepth === 1) {
    if (mouth === 1) return squeezed * OVER;
    if (squeezed === 1) return mouth * OVER;
  }
  return Math.exp(Math.sqrt(squareOf(mouth) + squareOf(squeezed) + squareOf(ofStandard) + squareOf(ofDepth))) * OVER;
}

/** The square of an error, in logarithms. */
function squareOf(factor: number): number {
  if (factor === 1) return 0;
  const error = Math.log(factor);
  return error * error;
}

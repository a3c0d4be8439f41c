import type { Design } from '@commensal/schema';
import { directionNumbers, SOBOL_DIMENSIONS } from '../design/direction-numbers.js';
import { gridPlaces } from '../design/grid.js';
import { firstPrimes, radicalInverse } from '../design/halton.js';
import { shuffled } from '../design/permutation.js';
import { saltelliPlace } from '../design/saltelli.js';
import { sobolBits } from '../design/sobol.js';
import { drawAt, streamOf, wordsAt } from '../random/draw.js';

/** One axis of a study: the name its draws hang on, and how many values stand for it in a grid. */
export interface Axis {
  readonly name: string;
  readonly values: number;
}

/** Where the scenarios of one run of a design lie: how many there are, and a probability above 0 and below 1 for each axis of each. */
export interface Layout {
  readonly points: number;
  readonly at: (point: number, replicate: number, into: Float64Array) => void;
}

/** Sobol points are counted in 32 bits. */
export const MOST_SOBOL_POINTS = 4294967296;

/** How many axes a design can have; Infinity where it does not matter. */
export function mostAxes(kind: Design['kind']): number {
  if (kind === 'sobol') return SOBOL_DIMENSIONS;
  return kind === 'sensitivity' ? Math.floor(SOBOL_DIMENSIONS / 2) : Number.POSITIVE_INFINITY;
}

const TWO_32 = 4294967296;

/**
 * The layout of a design. Draws hang on seed, name of the axis, point and replicate, so that another axis shifts nothing; in Sobol and Halton designs an axis also
 * has the dimension of its place among the axes. Sobol points are shifted digit by digit, Halton points round the unit interval, by a number drawn for
 * each axis and replicate: replicates then tell the error (Cranley & Patterson 1976; Owen 1998).
 */
export function layoutOf(design: Design, axes: readonly Axis[], seed: number): Layout {
  const streams = axes.map(({ name }) => streamOf(name));
  switch (design.kind) {
    case 'grid': {
      const lengths = axes.map(({ values }) => values);
      return {
        points: lengths.reduce((product, length) => product * length, 1),
        at: (point, _, into) => {
          gridPlaces(point, lengths, into);
          for (let axis = 0; axis < lengths.length; axis += 1) into[axis] = ((into[axis] as number) + 0.5) / (lengths[axis] as number);
        },
      };
    }
    case 'monte-carlo':
      return {
        points: design.scenarios,
        at: (point, replicate, into) => {
          for (let axis = 0; axis < streams.length; axis += 1) into[axis] = drawAt(seed, streams[axis] as number, point, replicate);
        },
      };
    case 'latin-hypercube': {
      const { scenarios } = design;
      return {
        points: scenarios,
        at: (point, replicate, into) => {
          streams.forEach((stream, axis) => {
            const share = shuffled(point, scenarios, seed, stream, replicate);
            into[axis] = (share + drawAt(seed, stream, point, replicate)) / scenarios;
          });
        },
      };
    }
    case 'halton': {
      const bases = firstPrimes(axes.length);
      return {
        points: design.scenarios,
        at: (point, replicate, into) => {
          streams.forEach((stream, axis) => {
            const turned = radicalInverse(point, bases[axis] as number) + drawAt(seed, stream, SHIFTS, replicate);
            into[axis] = inside(turned >= 1 ? turned - 1 : turned);
          });
        },
      };
    }
    case 'sobol':
      return { points: design.scenarios, at: sobolPoints(streams, seed) };
    case 'sensitivity': {
      const twice = [...streams, ...axes.map(({ name }) => streamOf(`${name}'`))];
      const points = sobolPoints(twice, seed);
      const both = new Float64Array(twice.length);
      const { length } = streams;
      return {
        points: design.points * (length + 2),
        at: (scenario, replicate, into) => {
          const { block, point } = saltelliPlace(scenario, length);
          points(point, replicate, both);
          for (let axis = 0; axis < length; axis += 1) {
            const fromB = block === 1 || block === axis + 2;
            into[axis] = both[fromB ? length + axis : axis] as number;
          }
        },
      };
    }
    case 'given':
      return { points: 0, at: () => undefined };
  }
}

/** Shifts are drawn at a scenario that no design reaches. */
const SHIFTS = Number.MAX_SAFE_INTEGER;

/** The ends themselves have no quantile. */
const inside = (u: number): number => Math.min(Math.max(u, Number.EPSILON), 1 - Number.EPSILON);

function sobolPoints(streams: readonly number[], seed: number): Layout['at'] {
  const directions = streams.map((_, dimension) => directionNumbers(dimension));
  const words = new Uint32Array(4);
  let shiftsOf = -1;
  const shifts = new Int32Array(streams.length);
  return (point, replicate, into) => {
    if (replicate !== shiftsOf) {
      streams.forEach((stream, axis) => {
        wordsAt(seed, stream, SHIFTS, replicate, words);
        shifts[axis] = words[0] as number;
      });
      shiftsOf = replicate;
    }
    for (let axis = 0; axis < streams.length; axis += 1) {
      const bits = (sobolBits(point, directions[axis] as Int32Array) ^ (shifts[axis] as number)) >>> 0;
      into[axis] = (bits + 0.5) / TWO_32;
    }
  };
}

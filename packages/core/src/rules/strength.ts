import type { SpeciesRecord } from '@commensal/schema';
import { usualBuild } from '../biology/usual-weight.js';
import { weight } from '../biology/weight.js';
import { weightEquivalentLength } from '../biology/weight-equivalent-length.js';
import { dayBook } from './day-book.js';
import type { StockAnimal, StockKind } from '../stock/stock.js';
import { lengthOn } from './gape/index.js';

/** Weight-equivalent lengths by animal and day, in cm; NaN where not known. */
export type StrengthBook = (animal: StockAnimal, day: number) => number;

/** A book for one run of a rule: each length is worked out once. */
export const strengthBook = (): StrengthBook => dayBook(strengthOf);

/** What an animal's strength on a day cannot be told without; on the day it was measured a length needs no growth curve. */
export function strengthGaps({ lengthCm, lengthDay, kind }: StockAnimal, day: number): readonly string[] {
  if (lengthCm === undefined) return LENGTH;
  return kind.asymptoticCm === undefined && day > lengthDay ? ASYMPTOTE : NOTHING;
}

const LENGTH: readonly string[] = ['length'];
const ASYMPTOTE: readonly string[] = ['growth.asymptoticLength'];
const NOTHING: readonly string[] = [];

function strengthOf(animal: StockAnimal, day: number): number {
  if (strengthGaps(animal, day).length > 0) return Number.NaN;
  const { a, b, perTotal } = buildOf(animal.kind);
  return weightEquivalentLength(weight(lengthOn(animal, day) * perTotal, a, b));
}

/** How a species' weight follows from its total length: by its own figures, else by the usual build of a body so deep. */
function buildOf(kind: StockKind): Build {
  const own = ownBuildOf(kind);
  if (own !== undefined) return own;
  const { a, b } = usualBuild(kind.depthPerTotal?.centre);
  return { a, b, perTotal: 1 };
}

/** Weight from length, and the length that this was fitted to over total length. */
export interface Build {
  readonly a: number;
  readonly b: number;
  readonly perTotal: number;
}

/** By the figures of the species; undefined where it has none, or none for a length that can be converted. */
export function ownBuildOf(kind: StockKind): Build | undefined {
  const own = kind.record.size?.weight;
  const perTotal = own === undefined ? undefined : perTotalOf(own, kind);
  return own === undefined || perTotal === undefined ? undefined : { a: own.a, b: own.b, perTotal };
}

type OwnWeight = NonNullable<NonNullable<SpeciesRecord['size']>['weight']>;

/** The length that a and b were fitted to, over total length; undefined where it cannot be converted. */
function perTotalOf({ lengthType }: OwnWeight, kind: StockKind): number | undefined {
  const totalPer = lengthType === 'SL' ? kind.totalPerStandard?.centre : lengthType === 'FL' ? kind.record.size?.totalPerFork?.value : 1;
  return totalPer === undefined ? undefined : 1 / totalPer;
}

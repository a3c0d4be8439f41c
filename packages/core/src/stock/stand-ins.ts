import type { StandInGroup, StandIns } from '@commensal/schema';
import { type Band, bandOf, type Quantity } from '../quantity/band.js';

/** Figures that a stand-in can be found for. */
export type StandInFigure = 'bodyDepth' | 'bodyWidth' | 'lowerJaw' | 'gapeWidth' | 'totalPerStandard' | 'growthRate';

/** Share of a normal curve's 90th percentile of absolute error (1.645 sigma) that bounds its central 80 % (1.282 sigma). */
const CENTRAL_80_OF_PERCENTILE_90 = 1.2816 / 1.6449;

/**
 * The figure of a group, with the published error of standing in for one of its members as its band.
 * Undefined where the tables hold none.
 *
 * @example
 * standIn(undefined, 'family', 'Labridae', 'bodyDepth'); // undefined
 */
export function standIn(standIns: StandIns | undefined, rank: StandInGroup['rank'], name: string, figure: StandInFigure): Band | undefined {
  const quantity: Quantity | undefined = standIns?.groups.find((group) => group.rank === rank && group.name === name)?.[figure];
  if (quantity === undefined) return undefined;
  const error = standIns?.errors.find((entry) => entry.figure === figure && entry.rank === rank);
  const spread = error === undefined ? undefined : 1 + error.percentile90 * CENTRAL_80_OF_PERCENTILE_90;
  const centre = quantity.value === undefined ? quantity : { value: quantity.value, unit: quantity.unit };
  return { ...bandOf({ ...centre, basis: 'imputed' }, quantity.unit, spread), basis: 'imputed' };
}

import type { Basis } from '@commensal/schema';
import type { Band } from '../../quantity/band.js';
import { weakest } from '../../quantity/basis.js';
import { logDown, logUp, together } from '../../quantity/log-errors.js';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import { lengthOn } from '../gape/index.js';
import { arrivalOf, comers } from '../presence.js';
import { isUnder } from '../rounding.js';
import { PASSED, type Telling, type Verdict } from '../rule.js';

/** An animal that leaves over the top, or may, and what lies on top. */
export interface TopMeasure {
  readonly about: 'top';
  readonly animal: StockAnimal;
  /** Undefined where the record does not tell. */
  readonly way: 'jumps' | 'climbs' | undefined;
  /** Closed where no gap is told: a cover counts as whole then. Undefined where nothing is told of the top. */
  readonly top: 'open' | 'gap' | 'closed' | undefined;
  readonly gapCm: Band | undefined;
  /** Depth of its body when it comes in, the thinnest it will be; undefined where it is not known, with the fields missing, or does not matter. */
  readonly depthCm: number | undefined;
  readonly depthMissing: readonly string[];
  /** Error of depth and gap together, in logarithms. */
  readonly error: number;
  readonly basis: Basis;
}

export function measureTop(stock: Stock, each: (measure: TopMeasure) => void): void {
  for (const animal of comers(stock)) {
    const escapes = animal.kind.record.conduct?.escapes;
    if (escapes === undefined ? !mayLeave(animal) : escapes.value === 'stays') continue;
    const way = escapes?.value === 'stays' ? undefined : escapes?.value;
    const top = topFor(stock, animal);
    const { depthPerTotal } = animal.kind;
    const { lengthCm } = animal;
    const { gapCm } = stock.tank;
    const known = depthPerTotal !== undefined && lengthCm !== undefined;
    // Elsewhere no number matters, and what is not looked at need not be asked again where it varies.
    const isMeasured = known && isThroughGap({ way, top });
    each({
      about: 'top',
      animal,
      way,
      top,
      gapCm,
      depthCm: isMeasured ? depthPerTotal.centre * lengthOn(animal, arrivalOf(stock, animal)) : undefined,
      depthMissing: [...(depthPerTotal === undefined ? ['shape.bodyDepth'] : []), ...(lengthCm === undefined ? ['length'] : [])],
      error: isMeasured && gapCm !== undefined ? together(logDown(depthPerTotal), logDown(lengthCm), logUp(gapCm)) : 0,
      basis: weakest(escapes?.basis ?? 'recalled', ...(known && gapCm !== undefined ? [depthPerTotal.basis, lengthCm.basis] : [])),
    });
  }
}

/** Whether an animal leaves only if its body passes the gap: what climbs pulls itself thin. */
export const isThroughGap = ({ way, top }: Pick<TopMeasure, 'way' | 'top'>): boolean => top === 'gap' && way === 'jumps';

/**
 * Fishes jump when they are frightened, and crabs and hermit crabs climb, so that a record silent on it leaves a doubt; other
 * animals hardly ever leave.
 */
const mayLeave = ({ kind: { form } }: StockAnimal): boolean => form === 'fish' || form === 'crab' || form === 'hermit-crab';

/** A tight lid that the keeper has made, or will before newcomers come, counts; a resident is under what lies there now. */
function topFor({ tank, keeper }: Stock, animal: StockAnimal): TopMeasure['top'] {
  const { cover, gapCm } = tank;
  const tight = keeper.provisions.includes('tight-lid') && (animal.role === 'newcomer' || cover === undefined);
  if (tight) return 'closed';
  if (cover === undefined || cover === 'open') return cover;
  return gapCm === undefined || gapCm.high <= 0 ? 'closed' : 'gap';
}

export function judgeTop({ way, top, gapCm, depthCm, error }: TopMeasure): Verdict {
  const cantTell: Verdict = { outcome: 'cantTell', level: 'warning', message: 'escape.unknown' };
  const fails = (message: string): Verdict => ({ outcome: 'failed', level: 'warning', message });
  if (top === 'closed') return PASSED;
  if (top === undefined) return cantTell;
  if (top === 'open') return way === undefined ? cantTell : fails('escape.open');
  // What climbs gets through any gap.
  if (way === 'climbs') return fails('escape.anyGap');
  if (way === undefined || depthCm === undefined || gapCm === undefined) return cantTell;
  const room = Math.log(gapCm.centre / depthCm);
  if (!isUnder(room, 0)) return fails('escape.gap');
  if (!isUnder(room + error, 0)) return { outcome: 'cantTell', level: 'warning', message: 'escape.mayFit' };
  return PASSED;
}

export function tellTop({ animal, way, top, gapCm, depthCm, depthMissing, basis }: TopMeasure, { message }: Verdict): Telling {
  const missing = [
    ...(way === undefined ? ['conduct.escapes'] : []),
    ...(top === undefined ? ['tank.cover'] : []),
    ...(isThroughGap({ way, top }) ? depthMissing : []),
  ];
  return {
    subjects: [{ id: animal.id, role: 'escapee' }],
    data: {
      ...(way === undefined ? {} : { way: { keys: [way] } }),
      ...(top === 'gap' && gapCm !== undefined ? { gap: cm(gapCm.centre) } : {}),
      ...(depthCm !== undefined ? { bodyDepth: cm(depthCm) } : {}),
      ...(message === 'escape.unknown' ? { missing: { keys: missing } } : {}),
      ...(message === 'escape.mayFit' ? { settle: { keys: ['shape.bodyDepth'] } } : {}),
    },
    when: null,
    basis,
  };
}

const cm = (value: number): { value: number; unit: string } => ({ value: Math.round(value * 10) / 10, unit: 'cm' });

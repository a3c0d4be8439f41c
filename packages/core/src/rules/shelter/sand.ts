import type { Basis } from '@commensal/schema';
import { type Band, bandOf } from '../../quantity/band.js';
import { weakest } from '../../quantity/basis.js';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import { comers } from '../presence.js';
import { isUnder } from '../rounding.js';
import { PASSED, type Telling, type Verdict } from '../rule.js';

/** An animal that lives or sleeps in sand, and the sand there is. */
export interface SandMeasure {
  readonly about: 'sand';
  readonly animal: StockAnimal;
  readonly optional: boolean;
  /** Depth wanted; undefined where any will do. */
  readonly wantsCm: Band | undefined;
  readonly wantsGrain: 'fine' | 'coarse' | undefined;
  readonly sandCm: Band | undefined;
  readonly sandGrain: 'fine' | 'coarse' | undefined;
  readonly basis: Basis;
}

/** A record that asks for a depth or a grain asks for sand. Silence means that none is needed: most animals need none. */
export function measureSand(stock: Stock, each: (measure: SandMeasure) => void): void {
  const { sandCm, sandGrain } = stock.tank;
  for (const animal of comers(stock)) {
    const needs = animal.kind.record.needs;
    const bed = needs?.shelter?.find(({ kind }) => kind === 'sand-bed');
    const depth = needs?.sandDepth;
    const grain = needs?.sandGrain?.value === 'any' ? undefined : needs?.sandGrain;
    if (bed === undefined && depth === undefined && grain === undefined) continue;
    each({
      about: 'sand',
      animal,
      optional: bed?.optional === true,
      // A need is a line drawn: a bare number is that line, not the middle of a band.
      wantsCm: depth === undefined ? undefined : bandOf(depth, 'cm', 1),
      wantsGrain: grain?.value as 'fine' | 'coarse' | undefined,
      sandCm,
      sandGrain,
      basis: weakest(...[bed, depth, grain].flatMap((told) => (told === undefined ? [] : [told.basis]))),
    });
  }
}

export function judgeSand({ optional, wantsCm, wantsGrain, sandCm, sandGrain }: SandMeasure): Verdict {
  const level = optional ? 'note' : 'warning';
  if (sandCm !== undefined && wantsCm !== undefined && isUnder(sandCm.centre, wantsCm.centre))
    return { outcome: 'failed', level, message: 'shelter.sandShallow' };
  if (wantsGrain !== undefined && sandGrain !== undefined && sandGrain !== wantsGrain)
    return { outcome: 'failed', level, message: 'shelter.sandGrain' };
  if (sandCm === undefined || (wantsGrain !== undefined && sandGrain === undefined))
    return { outcome: 'cantTell', level, message: 'shelter.sandUnknown' };
  if (wantsCm !== undefined && isUnder(sandCm.low, wantsCm.high))
    return { outcome: 'cantTell', level, message: 'shelter.sandMayBeShallow' };
  return PASSED;
}

export function tellSand({ animal, wantsCm, wantsGrain, sandCm, sandGrain, basis }: SandMeasure, { message }: Verdict): Telling {
  const missing = [
    ...(sandCm === undefined ? ['tank.sand.depth'] : []),
    ...(wantsGrain !== undefined && sandGrain === undefined ? ['tank.sand.grain'] : []),
  ];
  return {
    subjects: [{ id: animal.id, role: 'digger' }],
    data: {
      ...(wantsCm === undefined ? {} : { wants: cm(wantsCm.centre), wantsMost: cm(wantsCm.high) }),
      ...(wantsGrain === undefined ? {} : { wantsGrain: { keys: [wantsGrain] } }),
      ...(sandCm === undefined ? {} : { sand: cm(sandCm.centre) }),
      ...(sandGrain === undefined ? {} : { sandGrain: { keys: [sandGrain] } }),
      ...(message === 'shelter.sandUnknown' ? { missing: { keys: missing } } : {}),
      ...(message === 'shelter.sandMayBeShallow' ? { settle: { keys: ['tank.sand.depth'] } } : {}),
    },
    when: null,
    basis,
  };
}

const cm = (value: number): { value: number; unit: string } => ({ value: Math.round(value * 10) / 10, unit: 'cm' });

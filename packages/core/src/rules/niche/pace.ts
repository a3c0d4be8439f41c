import type { Basis } from '@commensal/schema';
import { weakest } from '../../quantity/basis.js';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import { meetingOf } from '../meeting.js';
import { comers } from '../presence.js';
import { PASSED, type Telling, type Verdict } from '../rule.js';

/** A fish that is slow, or may be, and those that get to the food before it. */
export interface PaceMeasure {
  readonly about: 'pace';
  readonly feeder: StockAnimal;
  /** Whether its own pace is on record. */
  readonly known: boolean;
  readonly quick: readonly StockAnimal[];
  /** Mates whose pace is not on record. */
  readonly unknown: readonly StockAnimal[];
  /** The keeper sees to it that it gets its share. */
  readonly fedByHand: boolean;
  readonly basis: Basis;
}

/** Slow snails, urchins and anemones live on what others leave; only fishes go short. */
export function measurePace(stock: Stock, each: (measure: PaceMeasure) => void): void {
  const animals = comers(stock);
  const fedByHand = stock.keeper.provisions.includes('feeding-by-hand');
  for (const feeder of animals) {
    const pace = feeder.kind.record.feeding?.pace;
    if (feeder.kind.form !== 'fish' || (pace !== undefined && pace.value !== 'slow')) continue;
    const mates = animals.filter((mate) => mate.kind.id !== feeder.kind.id && meetingOf(stock, feeder, mate) !== undefined);
    const quick = mates.filter((mate) => mate.kind.record.feeding?.pace?.value === 'quick');
    each({
      about: 'pace',
      feeder,
      known: pace !== undefined,
      quick,
      unknown: mates
        .filter((mate) => mate.kind.form === 'fish' && mate.kind.record.feeding?.pace === undefined)
        .sort((one, other) => (one.kind.id < other.kind.id ? -1 : one.kind.id > other.kind.id ? 1 : 0)),
      fedByHand,
      basis: weakest(pace?.basis ?? 'recalled', ...quick.map((mate) => mate.kind.record.feeding?.pace?.basis ?? 'recalled')),
    });
  }
}

const number = (animals: readonly StockAnimal[]): number => animals.reduce((sum, animal) => sum + animal.count, 0);

export function judgePace({ known, quick, unknown, fedByHand }: PaceMeasure, { quickMates }: { readonly quickMates: number }): Verdict {
  const level = fedByHand ? 'note' : 'warning';
  if (known && number(quick) >= quickMates) return { outcome: 'failed', level, message: 'niche.outpaced' };
  return number([...quick, ...unknown]) >= quickMates ? { outcome: 'cantTell', level, message: 'niche.paceUnknown' } : PASSED;
}

export function tellPace({ feeder, known, quick, unknown, fedByHand, basis }: PaceMeasure, { outcome }: Verdict): Telling {
  const inDoubt = known ? (unknown[0] as StockAnimal) : feeder;
  return {
    subjects: [
      { id: feeder.id, role: 'feeder' },
      ...(outcome === 'failed' ? quick : known ? unknown : [...quick, ...unknown]).map((mate) => ({ id: mate.id, role: 'mate' })),
    ],
    data: {
      ...(fedByHand ? { byHand: { keys: ['feeding-by-hand'] } } : {}),
      ...(outcome === 'cantTell' ? { missing: { keys: ['feeding.pace'] }, of: { animal: inDoubt.id } } : {}),
    },
    when: null,
    basis,
  };
}

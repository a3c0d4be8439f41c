import type { Basis } from '@commensal/schema';
import type { StockAnimal } from '../stock/stock.js';
import { PASSED, type Rule } from './rule.js';

/** One judgement: an animal and the keeper. */
export interface CareTierMeasure {
  readonly animal: StockAnimal;
  readonly tier: number | undefined;
  readonly keeperTier: number | undefined;
  /** Provisions the species needs that the keeper has not made. */
  readonly lacking: readonly string[];
  readonly needed: readonly string[];
  readonly basis: Basis;
}

/** Is the animal harder to keep than what the keeper has managed? */
export const careTier: Rule<CareTierMeasure, 'stepsToError'> = {
  id: 'care-tier',
  question: 'Is this animal harder to keep than what the keeper has kept well?',
  scope: 'animal',
  planning: 'option',
  monotone: { water: 'neither', rock: 'neither', fewerAnimals: 'better', delay: 'neither' },
  needs: ['needs.careTier', 'needs.provisions', 'needs.ifCaptiveBred', 'origin', 'keeper.careTier', 'keeper.provisions'],
  sources: [],
  defaults: {
    stepsToError: { value: 2, unit: '1', basis: 'practice', note: 'Tiers above the keeper at which it is an error; one above warns.' },
  },

  measure(stock, _options, each) {
    for (const animal of stock.animals) {
      const needs = animal.kind.record.needs;
      const ifBred = animal.origin === 'captive-bred' ? needs?.ifCaptiveBred : undefined;
      const told = ifBred?.careTier ?? needs?.careTier;
      const needed = (ifBred?.provisions ?? needs?.provisions)?.list ?? [];
      each({
        animal,
        tier: told?.value,
        keeperTier: stock.keeper.careTier,
        needed,
        lacking: needed.filter((provision) => !stock.keeper.provisions.includes(provision)),
        basis: told?.basis ?? 'recalled',
      });
    }
  },

  judge({ tier, keeperTier, lacking }, { stepsToError }) {
    if (tier === undefined) return { outcome: 'cantTell', level: 'error', message: 'care-tier.unknown' };
    if (keeperTier === undefined) {
      return tier === 1 ? PASSED : { outcome: 'cantTell', level: tier === 3 ? 'error' : 'warning', message: 'care-tier.keeperUnknown' };
    }
    if (tier <= keeperTier) return PASSED;
    const tooFar = tier - keeperTier >= stepsToError;
    // The hardest tier usually fails without its provisions, however experienced the keeper of a lower tier is.
    const unprovided = tier === 3 && lacking.length > 0;
    if (tooFar || unprovided) return { outcome: 'failed', level: 'error', message: tooFar ? 'care-tier.farAbove' : 'care-tier.unprovided' };
    return { outcome: 'failed', level: 'warning', message: 'care-tier.above' };
  },

  tell({ animal, tier, keeperTier, lacking, needed, basis }, { outcome }) {
    return {
      subjects: [{ id: animal.id, role: 'animal' }],
      data: {
        ...(tier === undefined ? {} : { tier: { value: tier, unit: '1' } }),
        ...(keeperTier === undefined ? {} : { keeperTier: { value: keeperTier, unit: '1' } }),
        ...(needed.length > 0 ? { needed: { keys: [...needed] } } : {}),
        ...(lacking.length > 0 ? { lacking: { keys: [...lacking] } } : {}),
        ...(outcome === 'cantTell' ? { missing: { keys: [tier === undefined ? 'needs.careTier' : 'keeper.careTier'] } } : {}),
      },
      when: null,
      basis,
    };
  },
};

import type { Basis } from '@commensal/schema';
import { type Band, bandOf, exactly } from '../quantity/band.js';
import { isoOf } from '../quantity/days.js';
import type { Stock, StockAnimal, StockKind } from '../stock/stock.js';
import { arrivalOf, comers } from './presence.js';
import { PASSED, type Rule } from './rule.js';

/** One judgement: an animal, and the age of the tank when it comes in, or today for one that lives there. */
export interface MaturityMeasure {
  readonly animal: StockAnimal;
  readonly day: number;
  /** Days that the tank must have been cycled; undefined where the species needs no more than that it is. */
  readonly wantsDays: Band | undefined;
  /** Day on which the tank was found to be cycled; undefined where not told. */
  readonly cycledDay: number | undefined;
  readonly basis: Basis;
}

type Options = 'anemoneDays' | 'copepodFeederDays';

/** Is the tank cycled, and old enough for the animal, when it comes in? */
export const maturity: Rule<MaturityMeasure, Options> = {
  id: 'maturity',
  question: 'Is the tank cycled, and old enough for this animal, when it comes in?',
  scope: 'animal',
  planning: 'option',
  monotone: { water: 'neither', rock: 'neither', fewerAnimals: 'better', delay: 'better' },
  needs: ['needs.tankAge', 'feeding.specialist', 'tank.cycledOn', 'introductions.date'],
  sources: [],
  defaults: {
    anemoneDays: {
      value: 180,
      unit: 'd',
      basis: 'practice',
      note: 'Age of the tank for anemones whose record does not tell, counted from the day it was cycled.',
    },
    copepodFeederDays: { value: 270, unit: 'd', basis: 'practice', note: 'The same for animals that live on copepods.' },
  },

  measure(stock, options, each) {
    for (const animal of comers(stock)) {
      const wants = ageFor(animal.kind, options);
      each({ animal, day: arrivalOf(stock, animal), wantsDays: wants, cycledDay: stock.tank.cycledDay, basis: wants?.basis ?? 'practice' });
    }
  },

  judge({ day, wantsDays, cycledDay }) {
    if (cycledDay === undefined) return { outcome: 'cantTell', level: 'error', message: 'maturity.unknown' };
    if (day < cycledDay) return { outcome: 'failed', level: 'error', message: 'maturity.notCycled' };
    if (wantsDays === undefined) return PASSED;
    const age = day - cycledDay;
    if (age < wantsDays.centre) return { outcome: 'failed', level: 'warning', message: 'maturity.tooYoung' };
    return age < wantsDays.high ? { outcome: 'cantTell', level: 'warning', message: 'maturity.mayBeTooYoung' } : PASSED;
  },

  tell({ animal, day, wantsDays, cycledDay, basis }, { outcome }) {
    const days = (value: number): { value: number; unit: string } => ({ value: Math.ceil(value), unit: 'd' });
    const subjects = [{ id: animal.id, role: 'animal' }];
    const wants = wantsDays === undefined ? {} : { wants: days(wantsDays.centre), wantsMost: days(wantsDays.high) };
    if (cycledDay === undefined) return { subjects, data: { ...wants, missing: { keys: ['tank.cycledOn'] } }, when: null, basis };
    const firstDay = cycledDay + Math.ceil((outcome === 'cantTell' ? wantsDays?.high : wantsDays?.centre) ?? 0);
    return {
      subjects,
      data: {
        ...wants,
        day: { date: isoOf(day) },
        cycled: { date: isoOf(cycledDay) },
        ...(day < cycledDay ? {} : { age: days(day - cycledDay) }),
        lacking: days(firstDay - day),
        firstDay: { date: isoOf(firstDay) },
        ...(animal.role === 'resident' ? { resident: { keys: ['resident'] } } : {}),
        ...(outcome === 'cantTell' ? { settle: { keys: ['needs.tankAge'] } } : {}),
      },
      when: day,
      basis,
    };
  },
};

/** First day on which a tank is old enough for a species; undefined where it is not known when it was cycled. */
export function readyDay({ tank }: Stock, kind: StockKind, options: Readonly<Record<Options, number>>): number | undefined {
  return tank.cycledDay === undefined ? undefined : tank.cycledDay + Math.ceil(ageFor(kind, options)?.centre ?? 0);
}

/** What the record asks for, else what is customary for its like. Most animals need no more than a cycled tank. */
function ageFor(kind: StockKind, { anemoneDays, copepodFeederDays }: Readonly<Record<Options, number>>): Band | undefined {
  const { needs, feeding } = kind.record;
  // A need is a line drawn: a bare number is that line, not the middle of a band.
  if (needs?.tankAge !== undefined) return bandOf(needs.tankAge, 'd', 1);
  if (kind.form === 'anemone') return exactly(anemoneDays, 'practice');
  return feeding?.specialist?.food === 'copepods' ? exactly(copepodFeederDays, 'practice') : undefined;
}

/** What the findings of the club tank rest on, invented: two rules, records with figures, sources. */
import { type Library, libraryOf } from '@commensal/core';
import type { CslItem, RuleDescription, Situation, SpeciesRecord, StandIns } from '@commensal/schema';
import type { Grounds } from '../../src/depth.js';
import { library as bare, situation } from './club.js';

const monotone: RuleDescription['monotone'] = { water: 'neither', rock: 'neither', fewerAnimals: 'better', delay: 'better' };

export const gapeRule: RuleDescription = {
  id: 'gape',
  question: 'Can one of these animals swallow the other?',
  scope: 'pair',
  planning: 'pair',
  monotone,
  needs: ['shape.lowerJaw', 'shape.bodyDepth', 'growth', 'growth.rate', 'size.entry', 'feeding.fishEating', 'tank.water'],
  sources: ['reed-1999'],
  defaults: {
    squeeze: { value: 1.25, unit: '1', basis: 'derived', source: 'lark-moss' },
    lookBeyondYears: { value: 60, unit: 'a', basis: 'choice' },
  },
};

export const gapRule: RuleDescription = {
  id: 'entry-gap',
  question: 'Is there about a month between one batch and the next?',
  scope: 'tank',
  planning: 'plan',
  monotone,
  needs: ['introductions.date'],
  sources: [],
  defaults: { gapDays: { value: 28, unit: 'd', basis: 'practice' } },
};

const standIns: StandIns = {
  $schema: 'https://commensal.example/schema/1.0/stand-ins.schema.json',
  groups: [
    { rank: 'family', name: 'Inventidae', lowerJaw: { value: 0.2, unit: '1', per: 'SL', basis: 'derived', source: 'reed-1999' } },
    { rank: 'genus', name: 'Vigilia', bodyDepth: { value: 0.4, unit: '1', per: 'SL', basis: 'derived', formula: 'median over 3 species' } },
  ],
  errors: [],
};

/** Wick's species is well known, Moll's hardly. */
const figures: Readonly<Record<string, Partial<SpeciesRecord>>> = {
  'vigilia-prima': {
    size: { entry: { low: 4, high: 8, unit: 'cm', lengthType: 'TL', basis: 'practice' } },
    growth: {
      asymptoticLength: {
        value: 42.5,
        low: 34.9,
        high: 45.5,
        unit: 'cm',
        lengthType: 'SL',
        interval: 'range',
        basis: 'measured',
        source: 'lark-moss',
      },
      rate: { value: 0.47, unit: '/a', basis: 'measured', source: 'lost-key' },
    },
    shape: { lowerJaw: { value: 0.1626, unit: '1', per: 'SL', basis: 'measured', source: 'reed-1999', note: 'Two specimens.' } },
    feeding: { fishEating: { value: 'habitual', basis: 'recalled' } },
  },
  'vigilia-secunda': { size: { maximum: { value: 12, unit: 'cm', lengthType: 'TL', basis: 'recalled' } } },
};

export const library: Library = libraryOf(
  [...bare.records.values()].map((record) => ({ ...record, ...figures[record.id] })),
  standIns,
);

export const bibliography: readonly CslItem[] = [
  { id: 'reed-1999', type: 'book', title: 'On Tanks', author: [{ family: 'Reed' }], issued: { 'date-parts': [[1999]] }, note: 'Seen.' },
  { id: 'lark-moss', type: 'article-journal', title: 'On Mouths', author: [{ family: 'Lark' }, { family: 'Moss' }] },
  { id: 'unread', type: 'book', title: 'Never Opened' },
];

export const grounds: Grounds = { rules: [gapeRule, gapRule], library, bibliography };

/** The club tank with its gaps between batches shortened. */
export const hurried: Situation = { ...situation, settings: { thresholds: { 'entry-gap': { gapDays: 21 } } } };

import type { Basis, Datum } from '@commensal/schema';
import type { Band } from '../quantity/band.js';
import { weakest } from '../quantity/basis.js';
import type { StockAnimal } from '../stock/stock.js';
import { meetingOf } from './meeting.js';
import { isOver } from './rounding.js';
import { PASSED, type Rule } from './rule.js';
import { isWord, judgeWord, measureWords, tellWord, type WaterWordMeasure } from './water-words.js';

/** One judgement: an animal's range of one property of the water against the tank's, or against another animal's. */
export interface WaterMeasure {
  readonly property: 'temperature' | 'salinity' | 'acidity';
  readonly unit: string;
  readonly animal: StockAnimal;
  readonly other: StockAnimal | undefined;
  /** What the animal wants, undefined where the record does not tell, and what it survives for long. */
  readonly wants: Band | undefined;
  readonly survives: Band | undefined;
  /** What it meets: the tank's swing, or the other's range. */
  readonly meets: Band | undefined;
  readonly otherSurvives: Band | undefined;
  readonly basis: Basis;
}

/** Does the water suit the animal, and can two animals share one water? */
export const water: Rule<WaterMeasure | WaterWordMeasure, 'slackCel'> = {
  id: 'water',
  question: 'Does the water suit this animal, and can these two share one water?',
  scope: 'pair',
  planning: 'option-and-pair',
  monotone: { water: 'neither', rock: 'neither', fewerAnimals: 'better', delay: 'better' },
  needs: [
    'needs.temperature',
    'needs.temperatureLimits',
    'needs.salinity',
    'needs.acidity',
    'needs.light',
    'needs.flow',
    'tank.temperature',
    'tank.salinity',
    'tank.acidity',
    'tank.light',
    'tank.flow',
    'tank.copper',
  ],
  sources: [],
  defaults: {
    slackCel: {
      value: 0.5,
      unit: 'Cel',
      basis: 'choice',
      note: 'Temperature outside the range that a keeper can put right without noticing.',
    },
  },

  measure(stock, _options, each) {
    measureWords(stock, each);
    const { animals, tank } = stock;
    animals.forEach((animal, index) => {
      const { temperatureCel, temperatureLimitsCel, salinity, acidity } = animal.kind;
      const own = (
        property: WaterMeasure['property'],
        unit: string,
        wants: Band | undefined,
        survives: Band | undefined,
        meets: Band | undefined,
      ): void =>
        each({
          property,
          unit,
          animal,
          other: undefined,
          wants,
          survives,
          meets,
          otherSurvives: undefined,
          basis: wants?.basis ?? 'recalled',
        });
      own('temperature', 'Cel', temperatureCel, temperatureLimitsCel, tank.temperatureCel);
      own('salinity', '1', salinity, undefined, tank.salinity);
      // Few records tell of pH, and what suits one marine animal suits nearly all: without a range of its own none is asked for.
      if (acidity !== undefined) own('acidity', '[pH]', acidity, undefined, tank.acidity);
      for (const other of animals.slice(index + 1)) {
        const met = other.kind.temperatureCel;
        if (temperatureCel === undefined || met === undefined || meetingOf(stock, animal, other) === undefined) continue;
        each({
          property: 'temperature',
          unit: 'Cel',
          animal,
          other,
          wants: temperatureCel,
          survives: temperatureLimitsCel,
          meets: met,
          otherSurvives: other.kind.temperatureLimitsCel,
          basis: weakest(temperatureCel.basis, met.basis),
        });
      }
    });
  },

  judge(measure, { slackCel }) {
    if (isWord(measure)) return judgeWord(measure);
    const { property, other, wants, survives, meets, otherSurvives } = measure;
    if (wants === undefined) return { outcome: 'cantTell', level: 'warning', message: 'water.needUnknown' };
    if (meets === undefined) return { outcome: 'cantTell', level: 'warning', message: `water.${property}Unknown` };
    const slack = property === 'temperature' ? slackCel : 0;
    if (other !== undefined) {
      // Two animals need one water in common, not the same range.
      if (!isOver(apart(wants, meets), slack)) return PASSED;
      const deadly = survives !== undefined && otherSurvives !== undefined && isOver(apart(survives, otherSurvives), 0);
      return { outcome: 'failed', level: deadly ? 'error' : 'warning', message: 'water.noCommonTemperature' };
    }
    if (!isOver(outside(wants, meets), slack)) return PASSED;
    const deadly = survives !== undefined && isOver(outside(survives, meets), 0);
    return { outcome: 'failed', level: deadly ? 'error' : 'warning', message: `water.${property}` };
  },

  tell(measure) {
    if (isWord(measure)) return tellWord(measure);
    const { property, unit, animal, other, wants, meets, basis } = measure;
    const missing = [...(wants === undefined ? [`needs.${property}`] : []), ...(meets === undefined ? [`tank.${property}`] : [])];
    const range = (name: string, band: Band): Record<string, Datum> => ({
      [`${name}Low`]: { value: rounded(band.low), unit },
      [`${name}High`]: { value: rounded(band.high), unit },
    });
    return {
      subjects:
        other === undefined
          ? [{ id: animal.id, role: property }]
          : [
              { id: animal.id, role: 'animal' },
              { id: other.id, role: 'animal' },
            ],
      data: {
        ...(wants === undefined ? {} : range('wants', wants)),
        ...(meets === undefined ? {} : range('meets', meets)),
        ...(missing.length > 0 ? { missing: { keys: missing } } : {}),
      },
      when: null,
      basis,
    };
  },
};

/** How far two ranges lie apart; 0 where they meet. */
const apart = (one: Band, other: Band): number => Math.max(0, one.low - other.high, other.low - one.high);

/** How far a range reaches beyond another. */
const outside = (wanted: Band, met: Band): number => Math.max(0, wanted.low - met.low, met.high - wanted.high);

const rounded = (value: number): number => Math.round(value * 10) / 10;

import { oxygenSaturation } from '../../biology/oxygen-saturation.js';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import type { Telling, Verdict } from '../rule.js';
import { twoDigits } from './figures.js';
import type { NitrogenOptions } from './options.js';

/** Water so warm that it holds little oxygen. */
export interface WarmMeasure {
  readonly what: 'warm';
  readonly fishes: readonly StockAnimal[];
  readonly temperatureCel: number;
  readonly salinity: number;
}

/** Usual salinity, where it is not told: oxygen hardly hangs on it. */
const ANY_SALINITY = 35;

export function measureWarmth({ tank, animals, day }: Stock, { warmCel }: NitrogenOptions, each: (measure: WarmMeasure) => void): void {
  const fishes = animals.filter((animal) => animal.kind.form === 'fish' && animal.leaveDay > day);
  const temperatureCel = tank.temperatureCel?.high;
  if (fishes.length === 0 || temperatureCel === undefined || temperatureCel <= warmCel) return;
  each({ what: 'warm', fishes, temperatureCel, salinity: tank.salinity?.centre ?? ANY_SALINITY });
}

/** Temperature to compare with. */
const MILD_CEL = 25;

export function tellWarmth({ fishes, temperatureCel, salinity }: WarmMeasure): Telling {
  return {
    subjects: fishes.map(({ id }) => ({ id, role: 'breather' })),
    data: {
      temperature: { value: Math.round(temperatureCel * 10) / 10, unit: 'Cel' },
      oxygen: { value: twoDigits(oxygenSaturation(temperatureCel, salinity)), unit: 'mg/L' },
      mild: { value: MILD_CEL, unit: 'Cel' },
      mildOxygen: { value: twoDigits(oxygenSaturation(MILD_CEL, salinity)), unit: 'mg/L' },
    },
    when: null,
    basis: 'derived',
  };
}

export const judgeWarmth = (): Verdict => ({ outcome: 'failed', level: 'note', message: 'nitrogen.warmWater' });

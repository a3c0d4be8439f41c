import type { Change, Rock, Situation } from '@commensal/schema';
import { convert } from '../quantity/units.js';

/**
 * A situation after a change; the one passed in stays as it is. Adding rock to a tank whose rock is told as a volume adds the
 * volume that such a mass of reef rock has.
 *
 * @example
 * // applyChange(situation, { kind: 'more-experience', careTier: 2 }).keeper?.careTier; // 2
 */
export function applyChange(situation: Situation, change: Change): Situation {
  switch (change.kind) {
    case 'more-rock':
      return { ...situation, tank: { ...situation.tank, rock: withMore(situation.tank.rock, change.massKg) } };
    case 'larger-tank':
      return {
        ...situation,
        tank: {
          ...situation.tank,
          length: { value: change.lengthCm, unit: 'cm' },
          width: { value: change.widthCm, unit: 'cm' },
          water: { value: change.waterL, unit: 'L' },
        },
      };
    case 'warmer-or-cooler':
      return { ...situation, tank: { ...situation.tank, temperature: { low: change.lowCel, high: change.highCel, unit: 'Cel' } } };
    case 'more-experience':
      return { ...situation, keeper: { ...situation.keeper, careTier: change.careTier } };
    case 'provision-made':
      return {
        ...situation,
        keeper: {
          careTier: situation.keeper?.careTier ?? 1,
          ...situation.keeper,
          provisions: [...new Set([...(situation.keeper?.provisions ?? []), ...(change.provisions as NonNullable<Situation['keeper']>['provisions'] & string[])])],
        },
      };
    case 'without-resident':
      return { ...situation, residents: (situation.residents ?? []).filter((resident) => resident.id !== change.animal) };
    case 'instead-of':
      return { ...situation, wishes: (situation.wishes ?? []).filter((wish) => !change.species.includes(wish.species)) };
  }
}

/** Rock with some added: by mass where its mass is told, else by the volume of reef rock (2.8 kg/L of grain, 45 % pores). */
function withMore(rock: Rock | undefined, massKg: number): Rock {
  if (rock?.envelope !== undefined) {
    const { envelope } = rock;
    const more = convert(massKg / (2.8 * 0.55), 'L', envelope.unit);
    const add = (value: number | undefined): { value: number } | Record<string, never> => (value === undefined ? {} : { value: value + more });
    return {
      ...rock,
      envelope: {
        ...envelope,
        ...add(envelope.value),
        ...(envelope.low === undefined || envelope.high === undefined ? {} : { low: envelope.low + more, high: envelope.high + more }),
      },
    };
  }
  const mass = rock?.mass ?? { value: 0, unit: 'kg' as const };
  const more = convert(massKg, 'kg', mass.unit);
  return {
    ...rock,
    mass: {
      ...mass,
      ...(mass.value === undefined ? {} : { value: mass.value + more }),
      ...(mass.low === undefined || mass.high === undefined ? {} : { low: mass.low + more, high: mass.high + more }),
    },
  };
}

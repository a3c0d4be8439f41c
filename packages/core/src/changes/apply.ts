import type { Change, Rock, Situation, Wish } from '@commensal/schema';
import { REEF_ROCK, rockEnvelope } from '../biology/rock-envelope.js';
import { convert } from '../quantity/units.js';
import { lineId } from '../stock/line-id.js';

/**
 * A situation after a change; the one passed in stays as it is. Adding rock to a tank whose rock is told as a volume adds the
 * volume that such a mass of reef rock has. Events and acceptances about an animal that it takes out go with it. A length of a wish
 * is its total length, or of an animal without a tail what its wish was told in.
 *
 * @example
 * applyChange(situation, { kind: 'more-experience', careTier: 2 }).keeper?.careTier; // 2
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
          provisions: [
            ...new Set([
              ...(situation.keeper?.provisions ?? []),
              ...(change.provisions as NonNullable<Situation['keeper']>['provisions'] & string[]),
            ]),
          ],
        },
      };
    case 'without-resident':
      return withoutMentions(situation, {
        ...situation,
        residents: (situation.residents ?? []).filter((resident) => resident.id !== change.animal),
      });
    case 'instead-of':
      return withoutMentions(situation, {
        ...situation,
        wishes: (situation.wishes ?? []).filter((wish) => !change.species.includes(wish.species)),
      });
    case 'this-length':
      return withWish(situation, change.species, ({ length }) => ({ length: lengthLike(length, change.lengthCm) }));
    case 'this-count':
      return withWish(situation, change.species, () => ({ count: [change.count, change.count] }));
    case 'not-before':
      return { ...situation, settings: { ...situation.settings, notBefore: change.date } };
    case 'rock-relaid':
      return withRelaying(situation, change.date);
    case 'food-offered':
      return {
        ...situation,
        tank: { ...situation.tank, foods: [...new Set([...(situation.tank.foods ?? []), change.food as Foods[number]])] },
      };
    case 'without-copper':
      return situation.tank.copper === 'never' ? situation : { ...situation, tank: { ...situation.tank, copper: 'removed' } };
  }
}

type Foods = NonNullable<Situation['tank']['foods']>;

/** Every wish for a species, with something else about it. */
const withWish = (situation: Situation, species: string, edit: (wish: Wish) => Partial<Wish>): Situation => ({
  ...situation,
  wishes: (situation.wishes ?? []).map((wish) => (wish.species === species ? { ...wish, ...edit(wish) } : wish)),
});

/** A total length, save that of an animal that has none: diameter and shell length stay what they are. */
function lengthLike(before: Wish['length'], lengthCm: number): NonNullable<Wish['length']> {
  const lengthType = before?.lengthType;
  return { value: lengthCm, unit: 'cm', ...(lengthType === 'DM' || lengthType === 'SH' ? { lengthType } : {}) };
}

/** Rock that is laid anew on a day already is not laid anew twice. */
function withRelaying(situation: Situation, date: string): Situation {
  const events = situation.events ?? [];
  if (events.some((event) => event.kind === 'rock-relaid' && event.date === date)) return situation;
  return { ...situation, events: [...events, { kind: 'rock-relaid', date }] };
}

/** The names by which events and acceptances may call an animal. */
function namesIn({ residents = [], introductions = [], wishes = [] }: Situation): Set<string> {
  return new Set([
    ...residents.map((resident) => resident.id),
    ...introductions.flatMap(({ animals }) => animals.map((newcomer) => newcomer.id ?? newcomer.species)),
    ...wishes.map((wish) => wish.species),
  ]);
}

/** A changed situation without the events and acceptances about animals it no longer has. */
function withoutMentions(before: Situation, after: Situation): Situation {
  const left = namesIn(after);
  const gone = new Set([...namesIn(before)].filter((name) => !left.has(name)));
  const isGone = (animal: string): boolean => gone.has(lineId(animal));
  const { events, settings } = after;
  return {
    ...after,
    ...(events === undefined ? {} : { events: events.filter((event) => event.kind !== 'animal-removed' || !isGone(event.animal)) }),
    ...(settings?.accepted === undefined
      ? {}
      : { settings: { ...settings, accepted: settings.accepted.filter(({ key }) => !animalsIn(key).some(isGone)) } }),
  };
}

/** The animals in the key of a finding: "gape:predator=hallie,prey=pip" names hallie and pip. */
const animalsIn = (key: string): string[] =>
  key
    .slice(key.indexOf(':') + 1)
    .split(',')
    .map((part) => part.slice(part.indexOf('=') + 1));

/** Rock with some reef rock added: to its volume where that is told, else to its mass. */
function withMore(rock: Rock | undefined, massKg: number): Rock {
  if (rock?.envelope !== undefined) {
    const { envelope } = rock;
    const more = convert(rockEnvelope(massKg, REEF_ROCK.grainDensity, REEF_ROCK.porosity), 'L', envelope.unit);
    const add = (value: number | undefined): { value: number } | Record<string, never> =>
      value === undefined ? {} : { value: value + more };
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

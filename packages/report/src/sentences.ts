import type { Caution, Change, Conflict, Finding, OrderReason } from '@commensal/schema';
import { say, type Slots } from './catalogue.js';
import {
  capital,
  dataSlots,
  sayAnimal,
  sayChoice,
  sayDate,
  sayList,
  sayQuantity,
  saySentence,
  saySpecies,
  sayWord,
  type Voice,
} from './voice.js';

/** The slots that the animals of a finding fill: each role its first animal, all of them, and all but the first. */
function subjectSlots(voice: Voice, finding: Finding): Record<string, string> {
  const slots: Record<string, string> = {};
  const byRole = new Map<string, string[]>();
  for (const { id, role } of finding.subjects) byRole.set(role, [...(byRole.get(role) ?? []), sayAnimal(voice, id)]);
  for (const [role, animals] of byRole) {
    slots[role] = animals[0] ?? '';
    slots[`${role}List`] = sayList(voice, animals);
    if (animals.length > 1) slots[`${role}Rest`] = sayList(voice, animals.slice(1));
  }
  const first = finding.subjects[0];
  if (first !== undefined) {
    const species = voice.names.speciesName(voice.names.speciesOf(first.id));
    slots.subject = sayAnimal(voice, first.id);
    slots.animal ??= slots.subject;
    slots.species = species;
    slots.speciesStart = capital(species);
  }
  return slots;
}

/** What a finding fills a sentence with. */
export const findingSlots = (voice: Voice, finding: Finding): Slots => ({
  ...dataSlots(voice, finding.data),
  ...subjectSlots(voice, finding),
  ...(finding.when === null ? {} : { when: sayDate(voice, finding.when) }),
  level: finding.level,
});

/** A finding as a sentence or two. */
export const sayFinding = (voice: Voice, finding: Finding): string => saySentence(voice, finding.message, findingSlots(voice, finding));

/** The slots that the sentence of a finding asks for; of its branches only those that are taken count. */
export function saidSlots(voice: Voice, finding: Finding): ReadonlySet<string> {
  const asked = new Set<string>();
  const noting = new Proxy(findingSlots(voice, finding), {
    get: (slots, name) => {
      asked.add(String(name));
      return slots[String(name)];
    },
  });
  say(voice.catalogue, finding.message, noting);
  return asked;
}

/** Not above this in degrees Celsius for water on a sting (Atkinson et al. 2006). */
const HOT_LIMIT_CEL = 45;

/** A caution as a sentence or two. */
export function sayCaution(voice: Voice, caution: Caution): string {
  const names = caution.species.map((species) => voice.names.speciesName(species));
  return saySentence(voice, caution.message, { speciesList: sayList(voice, names), hotLimit: sayQuantity(voice, HOT_LIMIT_CEL, 'Cel') });
}

/** A change as a phrase. */
export function sayChange(voice: Voice, change: Change): string {
  const key = `change.${change.kind}`;
  const quantity = (value: number, unit: string): string => sayQuantity(voice, value, unit);
  switch (change.kind) {
    case 'more-rock':
      return say(voice.catalogue, key, { massKg: quantity(change.massKg, 'kg') });
    case 'larger-tank':
      return say(voice.catalogue, key, {
        lengthCm: quantity(change.lengthCm, 'cm'),
        widthCm: quantity(change.widthCm, 'cm'),
        waterL: quantity(change.waterL, 'L'),
      });
    case 'warmer-or-cooler':
      return say(voice.catalogue, key, { lowCel: quantity(change.lowCel, 'Cel'), highCel: quantity(change.highCel, 'Cel') });
    case 'more-experience':
      return say(voice.catalogue, key, { careTier: change.careTier });
    case 'provision-made':
      return say(voice.catalogue, key, {
        provisions: sayList(
          voice,
          change.provisions.map((word) => sayWord(voice, word)),
        ),
      });
    case 'without-resident':
      return say(voice.catalogue, key, { animal: sayAnimal(voice, change.animal) });
    case 'instead-of':
      return say(voice.catalogue, key, {
        speciesList: sayList(
          voice,
          change.species.map((species) => saySpecies(voice, species)),
        ),
      });
    case 'this-length':
      return say(voice.catalogue, key, { species: saySpecies(voice, change.species), lengthCm: quantity(change.lengthCm, 'cm') });
    case 'this-count':
      return say(voice.catalogue, key, { name: voice.names.speciesName(change.species), count: change.count });
    case 'not-before':
    case 'rock-relaid':
      return say(voice.catalogue, key, { date: sayDate(voice, change.date) });
    case 'food-offered':
      return say(voice.catalogue, key, { food: sayWord(voice, change.food) });
    case 'without-copper':
      return say(voice.catalogue, key, {});
  }
}

/** Why a batch stands where it stands. */
export function sayOrderReason(voice: Voice, { message, data }: OrderReason): string {
  const named = Object.entries(data).flatMap(([name, { species, keys }]) => {
    if (species !== undefined) return [[name, saySpecies(voice, species)]];
    return keys === undefined
      ? []
      : [
          [
            name,
            sayList(
              voice,
              keys.map((word) => sayChoice(voice, name, word)),
            ),
          ],
        ];
  });
  return saySentence(voice, message, { ...dataSlots(voice, data), ...Object.fromEntries(named) });
}

/** What a wish cannot be together with. */
export function sayConflict(voice: Voice, { species, residents }: Conflict): string {
  return saySentence(voice, 'plan.conflict', {
    count: species.length,
    list: sayList(
      voice,
      species.map((one) => saySpecies(voice, one)),
    ),
    ...(residents.length === 0
      ? {}
      : {
          residents: sayList(
            voice,
            residents.map((animal) => sayAnimal(voice, animal)),
          ),
        }),
  });
}

import type { Datum } from '@commensal/schema';
import { convert, dayOf } from '@commensal/core';
import { type Catalogue, has, say, type Slots } from './catalogue.js';
import type { Names } from './names.js';

/** How a reader is spoken to: language, units, what things are called. */
export interface Voice {
  readonly catalogue: Catalogue;
  readonly units: 'metric' | 'us';
  readonly names: Names;
}

/** Units of the reader for units of the data, and how Intl calls them. */
const SHOWN: Readonly<Record<string, { readonly metric: readonly [string, string]; readonly us: readonly [string, string] }>> = {
  cm: { metric: ['cm', 'centimeter'], us: ['[in_i]', 'inch'] },
  L: { metric: ['L', 'liter'], us: ['[gal_us]', 'gallon'] },
  kg: { metric: ['kg', 'kilogram'], us: ['[lb_av]', 'pound'] },
  Cel: { metric: ['Cel', 'celsius'], us: ['[degF]', 'fahrenheit'] },
  d: { metric: ['d', 'day'], us: ['d', 'day'] },
  a: { metric: ['a', 'year'], us: ['a', 'year'] },
};

/** Units that read the same in either system and that Intl has no name for. */
const WRITTEN: Readonly<Record<string, string>> = { 'mg/L': 'mg/L', 'mg/d': 'mg', g: 'g', m2: 'm²', 'g/m2/d': 'g/m²' };

/** Those that the sentence around them does not say to be for a day. */
const PER_DAY: ReadonlySet<string> = new Set(['g/m2/d']);

/** Under so many inches a tenth is too coarse: mouths and bodies differ by less. */
const FINE_INCHES = 4;

type Language = Pick<Voice, 'catalogue' | 'units'>;

/** Dates in English are written the way that goes with the units; numbers with L for litres either way. */
const dateLocale = (voice: Language): string =>
  voice.catalogue.language === 'en' ? (voice.units === 'us' ? 'en-US' : 'en-GB') : voice.catalogue.language;
const locale = (voice: Language): string => (voice.catalogue.language === 'en' ? 'en-US' : voice.catalogue.language);

/** Keeps a number and its unit on one line. */
const NO_BREAK_SPACE = '\u00A0';

/** A number without a unit, in the reader's language. */
export const sayNumber = (voice: Language, value: number, digits: Intl.NumberFormatOptions = { maximumFractionDigits: 2 }): string =>
  new Intl.NumberFormat(locale(voice), digits).format(value);

/** A number with its unit, in the reader's units and language. */
export function sayQuantity(voice: Language, value: number, unit: string): string {
  const shown = SHOWN[unit];
  const written = WRITTEN[unit];
  if (written !== undefined) {
    const amount = `${new Intl.NumberFormat(locale(voice), { maximumSignificantDigits: 3 }).format(value)}${NO_BREAK_SPACE}${written}`;
    return PER_DAY.has(unit) ? say(voice.catalogue, 'unit.perDay', { amount }) : amount;
  }
  if (shown === undefined) return sayNumber(voice, value);
  const [code, name] = shown[voice.units];
  const shownValue = convert(value, unit, code);
  const format = new Intl.NumberFormat(locale(voice), {
    style: 'unit',
    unit: name,
    unitDisplay: unit === 'd' || unit === 'a' ? 'long' : 'short',
    maximumFractionDigits: name === 'inch' && shownValue < FINE_INCHES ? 2 : 1,
  });
  return format.format(shownValue).replace(' ', NO_BREAK_SPACE);
}

const MS_PER_DAY = 86_400_000;

/** A day in the reader's language. */
export function sayDate(voice: Voice, iso: string): string {
  return new Intl.DateTimeFormat(dateLocale(voice), { dateStyle: 'long', timeZone: 'UTC' })
    .format(dayOf(iso) * MS_PER_DAY)
    .replace(' ', NO_BREAK_SPACE);
}

/** Several things in a row. */
export const sayList = (voice: Voice, items: readonly string[]): string =>
  new Intl.ListFormat(dateLocale(voice), { style: 'long', type: 'conjunction' }).format(items);

/** An animal within a sentence: by its name, else by its species. */
export function sayAnimal(voice: Voice, animal: string): string {
  const given = voice.names.givenName(animal);
  if (given !== undefined) return say(voice.catalogue, 'name.named', { name: given });
  const species = voice.names.speciesOf(animal);
  const mark = voice.names.mark(animal);
  return mark === undefined ? saySpecies(voice, species) : say(voice.catalogue, 'name.marked', { ...speciesSlots(voice, species), mark });
}

/** Any one of a species, within a sentence. */
export const saySpecies = (voice: Voice, species: string): string => say(voice.catalogue, 'name.unnamed', speciesSlots(voice, species));

const speciesSlots = (voice: Voice, species: string): Slots => ({
  name: voice.names.speciesName(species),
  bareKey: voice.names.isBare(species) ? 'bare' : 'none',
});

/** A word of the data: a field, a provision, a kin group. Words without an entry are written out as they are. */
export function sayWord(voice: Voice, word: string): string {
  for (const key of [`field.${word}`, `word.${word}`]) if (has(voice.catalogue, key)) return say(voice.catalogue, key);
  if (word.endsWith('idae')) return word.charAt(0).toUpperCase() + word.slice(1);
  return word.replaceAll('-', ' ');
}

/** A word of the data; some mean something else in one slot than they do elsewhere. */
export const sayChoice = (voice: Voice, slot: string, word: string): string =>
  has(voice.catalogue, `choice.${slot}.${word}`) ? say(voice.catalogue, `choice.${slot}.${word}`) : sayWord(voice, word);

/** Where the data give `wantsLow` and `wantsHigh`, a slot `wantsRange`: both ends, or the one number they agree on. */
function rangeSlots(voice: Voice, slots: Slots): Record<string, string | number> {
  const ranges: Record<string, string | number> = {};
  for (const [name, low] of Object.entries(slots)) {
    const high = slots[name.replace(/Low$/, 'High')];
    if (!name.endsWith('Low') || high === undefined) continue;
    ranges[name.replace(/Low$/, 'Range')] = low === high ? low : say(voice.catalogue, 'name.range', { low, high });
  }
  return ranges;
}

/** The slots of a finding's data: text under the name; under `nameKey` the first word as it is, and of an amount whether it reads as 0. */
export function dataSlots(voice: Voice, data: Readonly<Record<string, Datum>>): Record<string, string | number> {
  const slots: Record<string, string | number> = {};
  for (const [name, datum] of Object.entries(data)) {
    if (datum.value !== undefined && datum.unit !== undefined) {
      slots[name] = datum.unit === '1' && Number.isInteger(datum.value) ? datum.value : sayQuantity(voice, datum.value, datum.unit);
      if (datum.unit !== '1') slots[`${name}Key`] = slots[name] === sayQuantity(voice, 0, datum.unit) ? 'zero' : 'some';
    } else if (datum.date !== undefined) {
      slots[name] = sayDate(voice, datum.date);
    } else if (datum.keys !== undefined) {
      slots[name] = sayList(
        voice,
        datum.keys.map((word) => sayWord(voice, word)),
      );
      slots[`${name}Key`] = datum.keys[0] ?? 'none';
    } else if (datum.animal !== undefined) {
      slots[name] = sayAnimal(voice, datum.animal);
    } else if (datum.species !== undefined) {
      slots[name] = voice.names.speciesName(datum.species);
    }
  }
  return { ...slots, ...rangeSlots(voice, slots) };
}

/** A sentence starts with a capital letter, whatever it starts with. */
export const capital = (text: string): string => text.charAt(0).toLocaleUpperCase() + text.slice(1);

export const saySentence = (voice: Voice, key: string, slots: Slots): string => capital(say(voice.catalogue, key, slots));

import type { Basis, SpeciesRecord } from '@commensal/schema';
import { convert } from '@commensal/core';
import { say } from './catalogue.js';
import { sayList, sayNumber, sayQuantity, sayWord, type Voice } from './voice.js';

/** Something that a record says, with what it rests on. */
export interface Recorded {
  readonly basis: Basis;
  readonly source?: string;
  readonly formula?: string;
  readonly note?: string;
  readonly [part: string]: unknown;
}

/** All that a record says under one field; several where the field is a list. */
export interface Fact {
  readonly field: string;
  readonly entries: readonly Recorded[];
}

const isObject = (part: unknown): part is Readonly<Record<string, unknown>> =>
  typeof part === 'object' && part !== null && !Array.isArray(part);
const isRecorded = (part: unknown): part is Recorded => isObject(part) && typeof part.basis === 'string';

/** What stands at a place such as `shape.lowerJaw`; undefined where nothing does. */
const at = (record: SpeciesRecord, field: string): unknown =>
  field.split('.').reduce<unknown>((part, name) => (isObject(part) ? part[name] : undefined), record);

/** What a record says under a field; a group of fields is taken apart into its own. */
export function factsAt(record: SpeciesRecord, field: string): Fact[] {
  const found = at(record, field);
  if (Array.isArray(found)) return found.length === 0 ? [] : [{ field, entries: found.filter(isRecorded) }];
  if (isRecorded(found)) return [{ field, entries: [found] }];
  return isObject(found) ? Object.keys(found).flatMap((name) => factsAt(record, `${field}.${name}`)) : [];
}

/** Parts that say how a figure is to be read, and what it rests on: no figures of their own. */
const ASIDE: ReadonlySet<string> = new Set([
  ...['basis', 'source', 'formula', 'from', 'searched', 'note'],
  ...['unit', 'low', 'high', 'interval', 'lengthType', 'per', 'at'],
]);

/** Parts that go without a name, as the field says what they are. */
const UNNAMED: ReadonlySet<string> = new Set(['value', 'list', 'foods', 'food', 'species', 'kind', 'how', 'what', 'harm', 'often']);

/** What is done to others, from ignoring to killing. */
const isStep = (field: string): boolean => field === 'conduct.pugnacity';

/** What one entry of a record says, without what it rests on. */
export function sayRecorded(voice: Voice, field: string, entry: Recorded): string {
  if (typeof entry.unit === 'string') return sayMeasure(voice, entry, entry.unit);
  const parts = Object.entries(entry).flatMap(([name, part]): string[] => {
    if (ASIDE.has(name) || (part === false && name !== 'value')) return [];
    const label = UNNAMED.has(name) ? undefined : say(voice.catalogue, `part.${name}`);
    const value = sayPart(voice, field, name, part);
    if (value === undefined) return label === undefined ? [] : [label];
    return [label === undefined ? value : say(voice.catalogue, 'record.part', { label, value })];
  });
  const { lengthType } = entry;
  const all = typeof lengthType === 'string' ? [...parts, say(voice.catalogue, 'record.lengthType', { type: lengthType })] : parts;
  return all.reduce((one, other) => say(voice.catalogue, 'record.parts', { one, other }));
}

/** Undefined for what its name says already. */
function sayPart(voice: Voice, field: string, name: string, part: unknown): string | undefined {
  if (typeof part === 'boolean') return name === 'value' ? say(voice.catalogue, part ? 'record.yes' : 'record.no') : undefined;
  if (typeof part === 'number') {
    if (isStep(field)) return say(voice.catalogue, 'record.step', { step: part });
    return sayNumber(voice, part, { maximumSignificantDigits: 4 });
  }
  const words = (Array.isArray(part) ? part : [part]).filter((word) => typeof word === 'string');
  return sayList(
    voice,
    words.map((word) => (name === 'species' ? voice.names.speciesName(word) : sayOwnWord(voice, field, word))),
  );
}

/** `none` stands for something else in every field that has it. */
const sayOwnWord = (voice: Voice, field: string, word: string): string =>
  word === 'none' ? say(voice.catalogue, `record.none.${field}`) : sayWord(voice, word);

/** Units of records in those that quantities are said in. */
const COUNTED: Readonly<Record<string, string>> = { mm: 'cm', '[in_i]': 'cm', '[gal_us]': 'L', '[degF]': 'Cel' };

/** A measurement: its centre, its band, how it was taken. */
function sayMeasure(voice: Voice, { value, low, high, interval, lengthType, per }: Recorded, unit: string): string {
  const amounts = (...all: readonly unknown[]): string | undefined =>
    all.every((amount) => typeof amount === 'number') ? sayAmounts(voice, all, unit) : undefined;
  const [centre, band] = [amounts(value), amounts(low, high)];
  const said = centre ?? band ?? '';
  const typed =
    typeof lengthType === 'string'
      ? say(voice.catalogue, 'record.typed', { value: said, type: lengthType })
      : unit === '1' && typeof per === 'string'
        ? say(voice.catalogue, 'record.shareOf', { value: said, type: per })
        : said;
  const isRange = interval === 'range';
  if (centre !== undefined && band !== undefined)
    return say(voice.catalogue, 'record.band', { value: typed, band, intervalKey: isRange ? 'range' : 'central' });
  return isRange ? say(voice.catalogue, 'record.range', { value: typed }) : typed;
}

/** One amount, or two as a range. */
function sayAmounts(voice: Voice, amounts: readonly number[], unit: string): string {
  const range = ([low = '', high = low]: readonly string[]): string =>
    low === high ? low : say(voice.catalogue, 'name.range', { low, high });
  const numbers = (): string => range(amounts.map((amount) => sayNumber(voice, amount, { maximumSignificantDigits: 3 })));
  if (unit === '/a') return say(voice.catalogue, 'unit.perYear', { amount: numbers() });
  if (unit === '/d') return say(voice.catalogue, 'unit.perDay', { amount: numbers() });
  if (unit === '1') return numbers();
  const counted = COUNTED[unit];
  return range(
    amounts.map((amount) =>
      counted === undefined ? sayQuantity(voice, amount, unit) : sayQuantity(voice, convert(amount, unit, counted), counted),
    ),
  );
}

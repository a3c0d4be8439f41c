import { childPointer, placeName } from './pointer.js';
import type { Problem } from './problem.js';
import { valueWords } from './words.js';

/**
 * The properties that hold a day. A test holds the list against the schemas.
 *
 * @example
 * DAYS.includes('date') // true
 */
export const DAYS: readonly string[] = [
  'date',
  'until',
  'since',
  'cycledOn',
  'measuredOn',
  'enteredOn',
  'purchasedOn',
  'latest',
  'notBefore',
  'lastSeen',
  'fishlessFrom',
  'fishlessUntil',
  'when',
];

const IS_DAY: ReadonlySet<string> = new Set(DAYS);

/** Two properties of one object that bound something, lower one first. */
const ENDS = [
  ['low', 'high'],
  ['least', 'most'],
] as const;

const MONTH_DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

function dayExists(day: string): boolean {
  const [year = 0, month = 0, date = 0] = day.split('-').map(Number);
  const leap = month === 2 && year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  return date <= (MONTH_DAYS[month - 1] ?? 0) + (leap ? 1 : 0);
}

/**
 * Calls `visit` for every object of a document, outer ones first. Extensions are left alone.
 *
 * @example
 * eachObject({ tank: {} }, (object, pointer) => seen.push(pointer)) // seen: ['', '/tank']
 */
export function eachObject(document: unknown, visit: (object: Readonly<Record<string, unknown>>, pointer: string) => void): void {
  const walk = (value: unknown, pointer: string): void => {
    if (typeof value !== 'object' || value === null) return;
    if (!Array.isArray(value)) visit(value as Record<string, unknown>, pointer);
    for (const key of Object.keys(value)) {
      const member = (value as Readonly<Record<string, unknown>>)[key];
      // Most members are plain values: their pointers are never needed.
      if (typeof member === 'object' && (pointer !== '' || key !== 'extensions')) walk(member, childPointer(pointer, key));
    }
  };
  walk(document, '');
}

/**
 * The problem of two numbers, days or counts in the wrong order.
 *
 * @example
 * wrongOrder('band-order', '/size/entry/low', '"low"', 9, '"high"', 7).found // 'size.entry.low is 9, "high" is 7'
 */
export function wrongOrder(code: string, pointer: string, lowName: string, low: unknown, highName: string, high: unknown): Problem {
  return {
    code,
    pointer,
    found: `${placeName(pointer)} is ${valueWords(low)}, ${highName} is ${valueWords(high)}`,
    allowed: `${lowName} must not lie beyond ${highName}`,
    fix: 'Put them in order.',
  };
}

function addBandProblems(problems: Problem[], object: Readonly<Record<string, unknown>>, pointer: string): void {
  for (const [lowName, highName] of ENDS) {
    const low = object[lowName];
    const high = object[highName];
    if (typeof low !== 'number' || typeof high !== 'number') continue;
    if (low > high) {
      problems.push(wrongOrder('band-order', childPointer(pointer, lowName), `"${lowName}"`, low, `"${highName}"`, high));
      continue;
    }
    const { value } = object;
    if (lowName !== 'low' || typeof value !== 'number' || (low <= value && value <= high)) continue;
    const place = childPointer(pointer, 'value');
    problems.push({
      code: 'band-order',
      pointer: place,
      found: `${placeName(place)} is ${value}, the band goes from ${low} to ${high}`,
      allowed: 'the value must lie in its band',
      fix: 'Correct the value, or widen the band.',
    });
  }
}

function addDayProblems(problems: Problem[], object: Readonly<Record<string, unknown>>, pointer: string): void {
  for (const name of Object.keys(object)) {
    const day = object[name];
    if (typeof day !== 'string' || !IS_DAY.has(name) || dayExists(day)) continue;
    const place = childPointer(pointer, name);
    problems.push({
      code: 'no-such-day',
      pointer: place,
      found: `${placeName(place)} is ${valueWords(day)}`,
      allowed: 'the month has fewer days',
      fix: 'Give a day that is in the calendar.',
    });
  }
}

/** Temperatures at which sea water is liquid and anything in it alive; schemas bound the number whatever its unit. */
const LIVEABLE: Readonly<Record<string, readonly [least: number, most: number]>> = { Cel: [-2, 45], '[degF]': [28, 113] };

function addUnitProblems(problems: Problem[], object: Readonly<Record<string, unknown>>, pointer: string): void {
  const { unit } = object;
  const range = typeof unit === 'string' ? LIVEABLE[unit] : undefined;
  if (range === undefined) return;
  const [least, most] = range;
  for (const name of ['value', 'low', 'high']) {
    const number = object[name];
    if (typeof number !== 'number' || (number >= least && number <= most)) continue;
    const place = childPointer(pointer, name);
    problems.push({
      code: number < least ? 'too-small' : 'too-large',
      pointer: place,
      found: `${placeName(place)} is ${number} ${unit}`,
      allowed: `water of ${least} to ${most} ${unit}`,
      fix: 'Correct the number, or its unit: Cel for degrees Celsius, [degF] for degrees Fahrenheit.',
    });
  }
}

/**
 * What a schema cannot say of any document: numbers lie in their bands, days are in the calendar,
 * temperatures are those of water. The document
 * must have passed its schema.
 *
 * @example
 * documentProblems({ date: '2027-02-30' })[0].code // 'no-such-day'
 */
export function documentProblems(document: unknown): Problem[] {
  const problems: Problem[] = [];
  eachObject(document, (object, pointer) => {
    addBandProblems(problems, object, pointer);
    addDayProblems(problems, object, pointer);
    addUnitProblems(problems, object, pointer);
  });
  return problems;
}

/**
 * The problems of entries that say they are the same as one before them. `identities` are the entries in the
 * order of the document, each with the place to point to.
 *
 * @example
 * duplicateProblems([{ id: 'pip', pointer: '/residents/0/id' }, { id: 'pip', pointer: '/residents/1/id' }], 'Change one.')
 */
export function duplicateProblems(identities: readonly { readonly id: string; readonly pointer: string }[], fix: string): Problem[] {
  const first = new Map<string, string>();
  return identities.flatMap(({ id, pointer }) => {
    const before = first.get(id);
    if (before === undefined) {
      first.set(id, pointer);
      return [];
    }
    return [
      {
        code: 'duplicate-id',
        pointer,
        found: `${placeName(pointer)} and ${placeName(before)} are both ${valueWords(id)}`,
        allowed: 'each must be its own',
        fix,
      },
    ];
  });
}

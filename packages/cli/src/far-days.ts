import { DAYS, type Problem } from '@commensal/schema';

/** Years of which a day is taken for meant. Plans go on for years after it, and a day after 9999 cannot be written. */
const FIRST_YEAR = 1900;
const LAST_YEAR = 2999;

/** Whether the year of an ISO date is one in which somebody keeps an aquarium. */
export function isFarDay(day: string): boolean {
  const year = Number(/^(\d{4})-\d{2}-\d{2}$/.exec(day)?.[1] ?? FIRST_YEAR);
  return year < FIRST_YEAR || year > LAST_YEAR;
}

export const FAR_DAY_ALLOWED: string = `the year must be from ${FIRST_YEAR} to ${LAST_YEAR}`;

/** A problem for every day whose year must be a slip of the pen. */
export function farDays(data: unknown, pointer = ''): Problem[] {
  if (typeof data !== 'object' || data === null) return [];
  return Object.entries(data).flatMap(([key, value]) => {
    const place = `${pointer}/${key.replaceAll('~', '~0').replaceAll('/', '~1')}`;
    if (typeof value === 'string' && DAYS.includes(key) && isFarDay(value)) {
      return [{ code: 'far-day', pointer: place, found: `"${key}" is "${value}"`, allowed: FAR_DAY_ALLOWED, fix: 'Correct the year.' }];
    }
    return place === '/extensions' ? [] : farDays(value, place);
  });
}

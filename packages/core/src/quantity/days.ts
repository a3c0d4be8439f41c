/** Days in the year that growth rates count in. */
export const DAYS_PER_YEAR = 365.25;

/**
 * Number of the day of an ISO 8601 date, counted from 1970-01-01 in the proleptic Gregorian calendar.
 * The arithmetic counts years from March, so that the leap day comes last.
 *
 * @throws RangeError when the text is no date, or the calendar has no such day.
 * @example
 * dayOf('2027-03-01'); // 20878
 */
export function dayOf(iso: string): number {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(iso);
  if (match === null) throw new RangeError(`dayOf: expected a date like 2027-03-01, received "${iso}"`);
  const year = Number(match[1]);
  const month = Number(match[2]);
  const day = Number(match[3]);
  const shifted = month <= 2 ? year - 1 : year;
  const era = Math.floor(shifted / 400);
  const yearOfEra = shifted - era * 400;
  const dayOfYear = Math.floor((153 * (month > 2 ? month - 3 : month + 9) + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  const dayNumber = era * 146097 + dayOfEra - 719468;
  if (isoOf(dayNumber) !== iso) throw new RangeError(`dayOf: expected a day of the calendar, received "${iso}"`);
  return dayNumber;
}

/**
 * ISO 8601 date of a day number; parts of a day are dropped.
 *
 * @example
 * isoOf(20878.9); // '2027-03-01'
 */
export function isoOf(dayNumber: number): string {
  const shifted = Math.floor(dayNumber) + 719468;
  const era = Math.floor(shifted / 146097);
  const dayOfEra = shifted - era * 146097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36524) - Math.floor(dayOfEra / 146096)) / 365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const marchMonth = Math.floor((5 * dayOfYear + 2) / 153);
  const day = dayOfYear - Math.floor((153 * marchMonth + 2) / 5) + 1;
  const month = marchMonth < 10 ? marchMonth + 3 : marchMonth - 9;
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  return `${year >= 1000 ? year : String(year).padStart(4, '0')}-${twoDigits(month)}-${twoDigits(day)}`;
}

const twoDigits = (value: number): string => (value < 10 ? `0${value}` : `${value}`);

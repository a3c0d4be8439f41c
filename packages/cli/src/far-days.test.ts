import { DAYS } from '@commensal/schema';
import { expect, test } from 'vitest';
import { farDays } from './far-days.js';

test('a slip in the year is found in every property that holds a day', () => {
  expect(DAYS.length).toBeGreaterThan(5);
  for (const name of DAYS) {
    expect(
      farDays({ tank: { [name]: '9998-01-01' } }).map(({ pointer }) => pointer),
      name,
    ).toEqual([`/tank/${name}`]);
    expect(farDays({ tank: { [name]: '2027-03-01' } })).toEqual([]);
  }
});

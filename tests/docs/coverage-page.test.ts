import { expect, test } from 'vitest';
import { coveragePage } from '../../scripts/coverage-page.mjs';

test('the page on coverage and its picture say what the records say', async () => {
  const { files, problems } = await coveragePage({ fix: false });
  expect(problems, 'run `npm run docs`').toEqual([]);
  expect(files).toBe(2);
});

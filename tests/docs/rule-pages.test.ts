import { expect, test } from 'vitest';
import { rulePages } from '../../scripts/rule-pages.mjs';

test('every rule has a page that says what the rule says', async () => {
  const { pages, problems } = await rulePages({ fix: false });
  expect(problems, 'run `npm run docs`').toEqual([]);
  expect(pages).toBeGreaterThan(1);
});

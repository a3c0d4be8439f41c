import { afterEach, expect, test, vi } from 'vitest';
import { runs } from '../support/runs.js';

afterEach(() => vi.unstubAllEnvs());

test.each([
  [undefined, 500, 500],
  ['1000', 500, 500],
  ['20000', 500, 10_000],
  ['10', 20, 1],
])('with COMMENSAL_RUNS %s, %i runs become %i', (setting, normal, expected) => {
  vi.stubEnv('COMMENSAL_RUNS', setting);
  expect(runs(normal)).toBe(expected);
});

test('a setting that is no number is refused, not taken for none', () => {
  vi.stubEnv('COMMENSAL_RUNS', 'many');
  expect(() => runs(1)).toThrow(/COMMENSAL_RUNS must be a positive number, got many/);
});

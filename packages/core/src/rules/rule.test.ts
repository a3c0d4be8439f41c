import { describe, expect, it } from 'vitest';
import { libraryOf } from '../stock/library.js';
import { stockOf } from '../stock/stock-of.js';
import { inventedSituation } from '../../tests/support/invented.js';
import { appetite } from './appetite/index.js';
import { lower } from './levels.js';
import { keyOf, optionsOf } from './rule.js';

describe('keyOf', () => {
  it('keeps the order of roles and sorts the ids of each', () => {
    const subjects = [
      { id: 'z', role: 'claimant' },
      { id: 'n', role: 'rival' },
      { id: 'b', role: 'rival' },
    ];
    expect(keyOf('rock-crowding', subjects)).toBe('rock-crowding:claimant=z,rival=b,rival=n');
  });
});

describe('optionsOf', () => {
  const stock = (thresholds: Record<string, Record<string, number>>) =>
    stockOf(inventedSituation({ settings: { thresholds } }), libraryOf([])).stock;

  it('takes the defaults, and what the settings say instead', () => {
    expect(optionsOf(appetite, stock({}))).toEqual({ smallShare: 0.35 });
    expect(optionsOf(appetite, stock({ appetite: { smallShare: 0.5 }, water: { slackCel: 2 } }))).toEqual({ smallShare: 0.5 });
  });

  it('refuses a name the rule does not have, inherited ones as well', () => {
    for (const name of ['gap', 'toString']) {
      expect(() => optionsOf(appetite, stock({ appetite: { [name]: 1 } }))).toThrow(
        `expected an option of appetite (smallShare), received "${name}"`,
      );
    }
  });
});

describe('lower', () => {
  it.each([
    ['error', 0, 'error'],
    ['error', 1, 'warning'],
    ['error', 2, 'note'],
    ['warning', 2, 'note'],
    ['note', 1, 'note'],
  ] as const)('%s by %i: %s', (level, steps, expected) => {
    expect(lower(level, steps)).toBe(expected);
  });
});

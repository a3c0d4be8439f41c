import { describe, expect, it } from 'vitest';
import { allRules } from '../../../../tests/sentences/keys.js';
import { expectIds, isVendors, OWN_IDS } from './ids.js';

const named = (...ids: string[]): { id: string }[] => ids.map((id) => ({ id }));

describe('the ids of rules', () => {
  it('without a slash are those of the rules there are', () => {
    expect(allRules.length).toBeGreaterThan(10);
    expect([...OWN_IDS].sort()).toEqual(allRules.map(({ id }) => id).sort());
    expect(OWN_IDS.filter(isVendors)).toEqual([]);
  });

  it('of the rules and of others’ beside them are taken', () => {
    expect(() => expectIds('check', [...allRules, ...named('lanternclub/house-list', 'quay-2/b', `v/${'a'.repeat(78)}`)])).not.toThrow();
    expect(() => expectIds('check', [])).not.toThrow();
  });

  it.each(['house-list', '', 'Lanternclub/list', 'lanternclub/', '/list', 'a/b/c', 'a/b c', 'a/b:c', 'a/-b', `v/${'a'.repeat(79)}`])(
    'such as "%s" are refused',
    (id) => {
      expect(() => expectIds('check', named('gape', id))).toThrow(
        new RangeError(
          `check: expected the id of a rule of this package, or one of the form "vendor/rule" in small letters, digits and hyphens, received "${id}"`,
        ),
      );
    },
  );

  it.each(['gape', 'lanternclub/house-list'])('given twice (%s) are refused', (id) => {
    expect(() => expectIds('plan', named(id, 'water', id))).toThrow(
      new RangeError(`plan: expected every rule once, received two with the id "${id}"`),
    );
  });
});

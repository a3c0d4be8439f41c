import { records } from '@commensal/species-sample';
import { describe, expect, it } from 'vitest';
import { factsOf } from './facts.js';

const record = records.find(({ id }) => id === 'gramma-loreto');
if (record === undefined) throw new Error('the sample has no gramma-loreto');

describe('the facts of a record', () => {
  it('are its figures and words, each with what it rests on', () => {
    const facts = new Map(factsOf(record).map((fact) => [fact.path, fact]));
    expect(facts.get('size.maximum')).toEqual({
      path: 'size.maximum',
      value: 8,
      grounds: { unit: 'cm', lengthType: 'TL', basis: 'recalled' },
    });
    expect(facts.get('size.entry.low')?.value).toBe(3.5);
    expect(facts.get('feeding.eats.foods')?.value).toBe('zooplankton | copepods | parasites');
    expect(facts.get('conduct.harms')?.value).toBe('none');
    expect(facts.get('form')).toEqual({ path: 'form', value: 'fish', grounds: {} });
  });

  it('go by one path each', () => {
    for (const one of records) {
      const paths = factsOf(one).map(({ path }) => path);
      expect(paths.length).toBeGreaterThan(10);
      expect(new Set(paths).size).toBe(paths.length);
    }
  });

  it('leave out names, sources and extensions', () => {
    const paths = factsOf({ ...record, extensions: { club: { tank: 4 } } }).map(({ path }) => path);
    expect(paths.filter((path) => /^(\$schema|id|taxon|synonyms|vernacularNames|sources|extensions)/.test(path))).toEqual([]);
  });
});

import type { Resident, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { PEACEFUL, recordWith, resident, situationWith } from '../../tests/support/scene.js';
import { libraryOf } from '../stock/library.js';
import { stockOf } from '../stock/stock-of.js';
import { type Companionship, companionship } from './companions.js';

type Conduct = NonNullable<SpeciesRecord['conduct']>;
type Kind = NonNullable<Conduct['company']>['kind'];

const speciesOf = (
  kind: Kind | undefined,
  more: Partial<SpeciesRecord> = {},
  pugnacity: Partial<Conduct['pugnacity']> = {},
): SpeciesRecord =>
  recordWith('unus-primus', {
    conduct: { pugnacity: { ...PEACEFUL, ...pugnacity }, ...(kind === undefined ? {} : { company: { kind, basis: 'practice' } }) },
    ...more,
  });

function between(record: SpeciesRecord, lines: readonly Partial<Resident>[]): Companionship {
  const residents = lines.map((line, at) => resident('unus-primus', 10, { id: `animal-${at}`, ...line }));
  const { stock } = stockOf(situationWith({ residents }), libraryOf([record]));
  return companionship(stock, stock.animals[0]!, stock.animals[1] ?? stock.animals[0]!);
}

describe('companionship', () => {
  it.each([
    ['pair', 2, 'bonded'],
    ['pair', 3, 'unfit'],
    ['harem', 4, 'bonded'],
    ['group', 9, 'bonded'],
    ['any', 9, 'bonded'],
    ['solitary', 2, 'unfit'],
    [undefined, 2, 'strangers'],
  ] as const)('a species that lives %s, a line of %i: %s', (kind, count, said) => {
    expect(between(speciesOf(kind), [{ count }])).toBe(said);
  });

  it('all that share days with both count', () => {
    expect(between(speciesOf('pair'), [{}, {}])).toBe('bonded');
    expect(between(speciesOf('pair'), [{}, {}, {}])).toBe('unfit');
  });

  it('two males in a harem are one too many', () => {
    expect(between(speciesOf('harem'), [{ sex: 'male' }, { sex: 'male' }])).toBe('unfit');
    expect(between(speciesOf('harem'), [{ sex: 'male' }, { sex: 'female' }])).toBe('bonded');
  });

  it.each([
    [undefined, 'male', 'unfit'],
    ['none', 'male', 'unfit'],
    ['male-to-female', 'male', 'bonded'],
    ['male-to-female', 'female', 'unfit'],
    ['female-to-male', 'female', 'bonded'],
    ['both-ways', 'female', 'bonded'],
    ['both-at-once', 'male', 'bonded'],
  ] as const)('two of one sex are a pair where one can change: %s, two of them %s: %s', (way, sex, said) => {
    const record = speciesOf('pair', way === undefined ? {} : { lifeCycle: { sexChange: { value: way, basis: 'practice' } } });
    expect(between(record, [{ sex }, { sex }])).toBe(said);
  });

  it.each([
    [1, 'bonded'],
    [2, 'strangers'],
    [3, 'unfit'],
  ] as const)('males of a group that treat males with %i: %s', (maleToMale, said) => {
    expect(between(speciesOf('group', {}, { maleToMale }), [{ sex: 'male' }, { sex: 'male' }])).toBe(said);
  });

  it('two species are strangers', () => {
    const residents = [resident('unus-primus', 10), resident('unus-secundus', 10)];
    const { stock } = stockOf(situationWith({ residents }), libraryOf([speciesOf('pair'), recordWith('unus-secundus')]));
    expect(companionship(stock, stock.animals[0]!, stock.animals[1]!)).toBe('strangers');
  });
});

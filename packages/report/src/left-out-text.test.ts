import type { LeftOut } from '@commensal/schema';
import { describe, expect, test } from 'vitest';
import { leftOutOf, metric, plain, swallowing } from '../tests/support/club.js';
import { leftOutSection } from './left-out-text.js';

const texts = (more: Partial<LeftOut>): string[] =>
  leftOutSection(metric, leftOutOf(more), { group: () => [], reasons: () => [], sections: () => [] }).map(({ text }) => plain(text));

describe('what a wish cannot be together with', () => {
  const conflict = (species: string[], residents: string[] = [], minimal = true): LeftOut['conflict'] => ({ species, residents, minimal });

  test('is said of several, any one of which would do', () => {
    expect(texts({ conflict: conflict(['vigilia-prima', 'vigilia-tertia']) })).toContain(
      'It cannot come in beside the lamp fish and Vigilia tertia together; without any one of these it could.',
    );
  });

  test('names the residents that stay whatever is wished for', () => {
    expect(texts({ conflict: conflict(['vigilia-prima', 'vigilia-tertia'], ['wick', 'moll']) })).toContain(
      "With Wick and Moll's perch in the tank it cannot come in beside the lamp fish and Vigilia tertia together; without any one of these it could.",
    );
  });

  test('is said of a single one that no finding names', () => {
    expect(texts({ conflict: conflict(['vigilia-tertia']) })).toContain('It cannot come in beside Vigilia tertia; otherwise it could.');
  });

  test.each<[string, Partial<LeftOut>]>([
    ['of a single one that a finding names', { because: [swallowing('vigilia-secunda', 'choir')], conflict: conflict(['vigilia-tertia']) }],
    ['where it is not known that any one would do', { conflict: conflict(['vigilia-prima', 'vigilia-tertia'], [], false) }],
    ['where it cannot be in at all', { conflict: conflict([]) }],
    ['of residents alone, which findings name', { conflict: conflict([], ['wick']) }],
  ])('is not said %s', (_, more) => expect(texts(more).join(' ')).not.toContain('cannot come in'));
});

describe('what would let it in', () => {
  const rock = { kind: 'more-rock', massKg: 4 } as const;
  const copper = { kind: 'without-copper' } as const;
  const listOf = (more: Partial<LeftOut>): string[] => texts(more).slice(1);

  test('is one change, or any of several', () => {
    expect(listOf({ wouldNeed: [rock] })).toEqual(['What would let it in:', '4 kg more rock']);
    expect(listOf({ wouldNeed: [rock, copper] })).toEqual([
      'Any one of these would let it in:',
      '4 kg more rock',
      'taking the copper out of the water',
    ]);
  });

  test('is several together where none does alone', () => {
    expect(listOf({ wouldNeedTogether: [rock, copper] })).toEqual([
      'No single change that was tried would let it in; these together would:',
      '4 kg more rock',
      'taking the copper out of the water',
    ]);
  });

  test('is said not to have been found', () => {
    expect(listOf({})).toEqual(['No single change that was tried would let it in beside what was chosen.']);
  });
});

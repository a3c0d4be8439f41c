import type { Resident, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { PEACEFUL, recordWith, resident, situationWith } from '../../tests/support/scene.js';
import { libraryOf } from '../stock/library.js';
import { stockOf } from '../stock/stock-of.js';
import { type Standing, type Treatment, treatmentOf } from './relation.js';

type Pugnacity = NonNullable<NonNullable<SpeciesRecord['conduct']>['pugnacity']>;

const actor = (pugnacity: Partial<Pugnacity> | undefined, more: Partial<SpeciesRecord['conduct']> = {}): SpeciesRecord =>
  recordWith('unus-primus', {
    kinGroup: { value: 'ones', basis: 'practice' },
    conduct: { ...(pugnacity === undefined ? {} : { pugnacity: { ...PEACEFUL, ...pugnacity } }), ...more },
  });

const STRANGE: Standing = { smaller: false, newcomer: false };

function treatment(
  one: SpeciesRecord,
  other: SpeciesRecord,
  standing: Standing = STRANGE,
  sexes: readonly (Resident['sex'] | undefined)[] = [],
): Treatment {
  const residents = [one, other].map(({ id }, at) => {
    const sex = sexes[at];
    return resident(id, 10, { id: `animal-${at}`, ...(sex === undefined ? {} : { sex }) });
  });
  const [first, second] = stockOf(situationWith({ residents }), libraryOf(one.id === other.id ? [one] : [one, other])).stock.animals;
  return treatmentOf(first!, second!, standing);
}

const inBrief = ({ toward, step, atMost }: Treatment): string => `${toward} ${step} ${atMost}`;

describe('treatmentOf', () => {
  const congener = recordWith('unus-secundus', { kinGroup: { value: 'others', basis: 'practice' } });
  const kin = recordWith('alter-primus', { kinGroup: { value: 'ones', basis: 'practice' } });
  const kindred = recordWith('unus-tertius', { kinGroup: { value: 'ones', basis: 'practice' } });
  const stranger = recordWith('tertius-primus', { kinGroup: { value: 'others', basis: 'practice' } });

  it('asks for the relation by species', () => {
    const told = { ownKind: 4, genus: 3, kin: 2, others: 1 };
    expect(inBrief(treatment(actor(told), actor(told)))).toBe('its-own-kind 4 4');
    expect(inBrief(treatment(actor(told), congener))).toBe('others-of-its-genus 3 3');
    expect(inBrief(treatment(actor(told), kindred))).toBe('others-of-its-genus 3 3');
    expect(inBrief(treatment(actor(told), kin))).toBe('its-kin 2 2');
    expect(inBrief(treatment(actor(told), stranger))).toBe('other-animals 1 1');
  });

  it('the worse of two relations counts, and others are only those that nothing else names', () => {
    expect(inBrief(treatment(actor({ genus: 1, kin: 2 }), kindred))).toBe('its-kin 2 2');
    expect(inBrief(treatment(actor({ kin: 0, others: 3 }), kin))).toBe('its-kin 0 0');
  });

  it('newcomers are newcomers whatever their kind', () => {
    const newcomer = { ...STRANGE, newcomer: true };
    expect(inBrief(treatment(actor({ newcomers: 3, others: 1 }), stranger, newcomer))).toBe('newcomers 3 3');
    expect(inBrief(treatment(actor({ newcomers: 3, ownKind: 4 }), actor({}), newcomer))).toBe('its-own-kind 4 4');
    expect(inBrief(treatment(actor({ newcomers: 3, others: 1 }), stranger))).toBe('other-animals 1 1');
  });

  it('look-alikes are those that either record names; without a step for them they are others', () => {
    const named = actor({ lookAlikes: 3, others: 1 }, { resembles: { species: ['tertius-primus'], basis: 'practice' } });
    const naming = { ...stranger, conduct: { ...stranger.conduct, resembles: { species: ['unus-primus'], basis: 'practice' as const } } };
    expect(inBrief(treatment(named, stranger))).toBe('animals-that-look-like-it 3 3');
    expect(inBrief(treatment(actor({ lookAlikes: 3, others: 1 }), naming))).toBe('animals-that-look-like-it 3 3');
    expect(inBrief(treatment(actor({ others: 1 }), naming))).toBe('other-animals 1 1');
  });

  it('smaller fishes are of another kind, and fishes', () => {
    const smaller = { ...STRANGE, smaller: true };
    const shrimp = { ...stranger, form: 'shrimp' as const };
    expect(inBrief(treatment(actor({ smaller: 3 }), stranger, smaller))).toBe('smaller-fishes 3 3');
    expect(inBrief(treatment(actor({ smaller: 3 }), actor({}), smaller))).toBe('its-own-kind 0 0');
    expect(inBrief(treatment(actor({ smaller: 3 }), shrimp, smaller))).toBe('other-animals 0 0');
    expect(inBrief(treatment(actor({ smaller: 3 }), stranger, { ...STRANGE, smaller: undefined }))).toBe('other-animals 0 3');
  });

  it.each([
    ['male', 'male', 'other-males-of-its-kind 4 4'],
    ['female', 'female', 'other-females-of-its-kind 3 3'],
    ['male', 'female', 'the-other-sex-of-its-kind 1 1'],
    ['male', undefined, 'its-own-kind 2 2'],
  ] as const)('its own kind by sex, where both are known: %s and %s', (one, other, said) => {
    const told = actor({ ownKind: 2, maleToMale: 4, femaleToFemale: 3, maleToFemale: 1 });
    expect(inBrief(treatment(told, told, STRANGE, [one, other]))).toBe(said);
  });

  it('a record that does not tell the sexes apart means both', () => {
    expect(inBrief(treatment(actor({ ownKind: 2 }), actor({ ownKind: 2 }), STRANGE, ['male', 'male']))).toBe('its-own-kind 2 2');
  });

  it('what is not on record may be anything', () => {
    expect(inBrief(treatment(actor(undefined), kin))).toBe('its-kin undefined 4');
    expect(inBrief(treatment(actor(undefined), stranger))).toBe('other-animals undefined 4');
  });
});

import { describe, expect, it } from 'vitest';
import { situationDocumentProblems } from './situation-document-problems.js';

const situation = {
  $schema: 'https://commensal.example/schema/1.0/situation.schema.json',
  date: '2027-03-01',
  tank: { water: { value: 240, unit: 'L' } },
  residents: [
    { id: 'crew', species: 'exemplum-primum', count: 3 },
    { id: 'pip', species: 'exemplum-primum' },
  ],
  wishes: [{ species: 'exemplum-tertium', count: [1, 2] }],
} as const;

type Situation = Parameters<typeof situationDocumentProblems>[0];
const texts = (more: object): string[] =>
  situationDocumentProblems({ ...situation, ...more } as unknown as Situation).map(
    ({ found, allowed, fix }) => `${found}; ${allowed}. ${fix}`,
  );

const removed = (animal: string): object => ({ events: [{ kind: 'animal-removed', date: '2027-04-01', animal }] });
const accepted = (key: string): object => ({ settings: { accepted: [{ key, reason: 'known' }] } });

describe('situationDocumentProblems', () => {
  it('takes single animals, groups and one of a group', () => {
    for (const animal of ['pip', 'crew', 'crew#1', 'crew#3']) expect(texts(removed(animal)), animal).toEqual([]);
  });

  it('says which animals there are', () => {
    expect(texts(removed('pipp'))).toEqual([
      'events[0].animal names "pipp"; no resident, newcomer or wish has this id. Did you mean "pip"?',
    ]);
    expect(texts(removed('crew#4'))).toEqual([
      'events[0].animal names "crew#4"; "crew" is a group of 3. Write a number from 1 to 3, or "crew" for all of them.',
    ]);
    expect(texts(removed('pip#1'))).toEqual(['events[0].animal names "pip#1"; "pip" is a single animal. Write "pip".']);
  });

  it('lets an acceptance name animals that have left', () => {
    expect(texts(accepted('gape:predator=pop,prey=crew#9'))).toEqual([]);
  });

  it('knows the temperatures of water in either unit', () => {
    expect(texts({ tank: { ...situation.tank, temperature: { value: 78, unit: 'Cel' } } })).toEqual([
      'tank.temperature.value is 78 Cel; water of -2 to 45 Cel. Correct the number, or its unit: Cel for degrees Celsius, [degF] for degrees Fahrenheit.',
    ]);
    expect(texts({ tank: { ...situation.tank, temperature: { low: 25, high: 78, unit: '[degF]' } } })).toHaveLength(1);
    expect(texts({ tank: { ...situation.tank, temperature: { low: 76, high: 79, unit: '[degF]' } } })).toEqual([]);
  });

  it('has residents and newcomers share one set of ids', () => {
    const introductions = [
      { date: '2027-04-01', animals: [{ species: 'exemplum-secundum' }, { id: 'pip', species: 'exemplum-secundum' }] },
    ];
    expect(texts({ introductions })).toEqual([
      'introductions[0].animals[1].id and residents[1].id are both "pip"; each must be its own. Give one of them an id of its own; an id is never used again, even after its animal has left.',
    ]);
  });

  it('has the fewest before the most, and the first day before the last', () => {
    expect(texts({ wishes: [{ species: 'exemplum-tertium', count: [3, 2] }] })).toEqual([
      'wishes[0].count[0] is 3, the most is 2; the fewest must not lie beyond the most. Put them in order.',
    ]);
    expect(texts({ events: [{ kind: 'tank-divided', date: '2027-04-02', until: '2027-04-01' }] })).toEqual([
      'events[0].date is "2027-04-02", the last day is "2027-04-01"; the first day must not lie beyond the last day. Put them in order.',
    ]);
    expect(texts({ events: [{ kind: 'tank-divided', date: '2027-04-02', until: '2027-04-02' }] })).toEqual([]);
  });
});

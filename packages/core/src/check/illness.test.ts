import { describe, expect, it } from 'vitest';
import { allRules } from '../../../../tests/sentences/keys.js';
import { textOf } from '../../../../tests/support/repository.js';
import { checkBy, newcomer, recordWith, resident, situationWith, TANK } from '../../tests/support/scene.js';
import { quarantine } from '../rules/quarantine.js';
import { water } from '../rules/water.js';
import { speaksOfIllness } from './illness.js';

const sentences: Readonly<Record<string, string>> = JSON.parse(textOf('packages/report/messages/en.json'));
const spoken = Object.keys(sentences).filter((key) => allRules.some(({ id }) => key.startsWith(`${id}.`)));

/** Words by which a sentence is about illness or what is done against it. */
const ILLNESS = /\b(ill|illness|sick|disease|treated|treatment|medic\w*|remed\w*|cure[sd]?|copper|quarantine|parasit\w*|dose[sd]?|bath)\b/i;

const kindsOf = (...args: Parameters<typeof checkBy>): string[] => checkBy(...args).cautions.map(({ kind }) => kind);

describe('a finding that speaks of illness or treatment', () => {
  it('is known for one, whatever it says', () => {
    const about = spoken.filter((key) => ILLNESS.test(sentences[key] ?? ''));
    expect(about.length).toBeGreaterThan(3);
    expect(about.filter((message) => !speaksOfIllness({ message }))).toEqual([]);
  });

  it('is one of those that are taken for it', () => {
    expect(spoken.filter((message) => speaksOfIllness({ message })).every((key) => /^(quarantine|water)\./.test(key))).toBe(true);
  });

  const fish = recordWith('unus-primus');
  const shrimp = recordWith('duo-primus', { form: 'shrimp' });
  const sick = { ...TANK, disease: { lastSeen: '2027-02-20' } };
  const introductions = [{ date: '2027-04-01', animals: [newcomer('unus-primus', 5)] }];

  it('brings the caution, for the species that it names', () => {
    const { cautions, findings } = checkBy(quarantine, situationWith({ tank: sick, introductions }), [fish, shrimp]);
    expect(findings.length).toBeGreaterThan(0);
    expect(cautions.find(({ kind }) => kind === 'medication')).toEqual({
      kind: 'medication',
      severity: 'duty',
      species: ['unus-primus'],
      message: 'caution.medication',
    });
    const poisoned = situationWith({
      tank: { ...TANK, copper: 'present' },
      residents: [resident('unus-primus', 5), resident('duo-primus', 5)],
    });
    expect(checkBy(water, poisoned, [fish, shrimp]).cautions.find(({ kind }) => kind === 'medication')?.species).toEqual(['duo-primus']);
  });

  it('where there is none, no caution', () => {
    expect(kindsOf(quarantine, situationWith({ residents: [resident('unus-primus', 5)] }), [fish])).toEqual([
      'electricity',
      'never-release',
    ]);
    expect(kindsOf(water, situationWith({ tank: { ...TANK, copper: 'never' }, residents: [resident('duo-primus', 5)] }), [shrimp])).toEqual(
      ['electricity', 'never-release'],
    );
  });
});

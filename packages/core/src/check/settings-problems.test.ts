import type { Situation } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { inventedSituation } from '../../tests/support/invented.js';
import { rules } from '../rules/index.js';
import type { AnyRule } from '../rules/rule.js';
import { settingsProblems } from './settings-problems.js';

const theirs: AnyRule = {
  id: 'lanternclub/house-list',
  question: 'Does the club keep it?',
  scope: 'animal',
  planning: 'option',
  monotone: { water: 'neither', rock: 'neither', fewerAnimals: 'neither', delay: 'neither' },
  needs: [],
  sources: [],
  defaults: { mostMembers: { value: 1, unit: '1', basis: 'choice', note: 'a house rule' } },
  measure: () => {},
  judge: () => ({ outcome: 'passed', level: 'note', message: '' }),
  tell: () => ({ subjects: [], data: {}, when: null, basis: 'practice' }),
};

const problemsOf = (settings: NonNullable<Situation['settings']>, among: readonly AnyRule[] = [...rules, theirs]) =>
  settingsProblems(inventedSituation({ settings }), among);

describe('settingsProblems', () => {
  it('has nothing to say of rules and thresholds there are, others’ among them', () => {
    const thresholds = { water: { slackCel: 1 }, 'entry-gap': { gapDays: 14 }, 'lanternclub/house-list': { mostMembers: 2 } };
    expect(problemsOf({ off: ['gape', 'lanternclub/house-list'], thresholds })).toEqual([]);
    expect(problemsOf({})).toEqual([]);
    expect(settingsProblems(inventedSituation(), rules)).toEqual([]);
  });

  it('takes every rule and every threshold there is', () => {
    for (const { id, defaults } of rules) {
      const values = Object.fromEntries(Object.entries(defaults).map(([name, { value }]) => [name, value]));
      expect(problemsOf({ off: [id], thresholds: { [id]: values } }, rules)).toEqual([]);
    }
  });

  it('points at what there is not, says what there is, and offers what comes near', () => {
    const thresholds = { water: { slack: 1 }, wine: { slackCel: 1 }, 'lanternclub/house-list': { mostMember: 2, zzz: 1 } };
    const problems = problemsOf({ off: ['gape', 'gaping', 'lanternclub/houselist'], thresholds });
    expect(problems.map(({ code, pointer, found, fix }) => [code, pointer, found, fix])).toEqual([
      ['unknown-rule', '/settings/off/1', 'settings name the rule "gaping"', 'Did you mean "gape"?'],
      ['unknown-rule', '/settings/off/2', 'settings name the rule "lanternclub/houselist"', 'Did you mean "lanternclub/house-list"?'],
      ['unknown-threshold', '/settings/thresholds/water/slack', 'settings name the threshold "slack"', 'Did you mean "slackCel"?'],
      ['unknown-rule', '/settings/thresholds/wine', 'settings name the rule "wine"', 'Use one of these, or leave it out.'],
      [
        'unknown-threshold',
        '/settings/thresholds/lanternclub~1house-list/mostMember',
        'settings name the threshold "mostMember"',
        'Did you mean "mostMembers"?',
      ],
      [
        'unknown-threshold',
        '/settings/thresholds/lanternclub~1house-list/zzz',
        'settings name the threshold "zzz"',
        'Use one of these, or leave it out.',
      ],
    ]);
    expect(problems[0]?.allowed).toBe(
      `it must be ${[...rules, theirs]
        .map(({ id }) => id)
        .join(', ')
        .replace(/, ([^,]*)$/, ' or $1')}`,
    );
    expect(problems[2]?.allowed).toBe('it must be slackCel');
  });

  it('says of a rule of a vendor who is not here whose it is', () => {
    expect(problemsOf({ off: ['quay/opening-hours'] }, rules)[0]).toMatchObject({
      code: 'unknown-rule',
      fix: 'Leave it out, or use a program that has the rules of "quay".',
    });
  });

  it('looks at the rules it is given, if only at none', () => {
    expect(problemsOf({ off: ['gape'] }, [])).toEqual([
      {
        code: 'unknown-rule',
        pointer: '/settings/off/0',
        found: 'settings name the rule "gape"',
        allowed: 'there is no rule to name',
        fix: 'Leave it out.',
      },
    ]);
    expect(problemsOf({ thresholds: { 'quay/none': { any: 1 } } }, [{ ...theirs, id: 'quay/none', defaults: {} }])[0]).toMatchObject({
      allowed: 'there is no threshold to name',
    });
  });

  it('a name of what every object has is none of a threshold', () => {
    expect(problemsOf({ thresholds: { water: { toString: 1 } } }).map(({ pointer }) => pointer)).toEqual([
      '/settings/thresholds/water/toString',
    ]);
  });
});

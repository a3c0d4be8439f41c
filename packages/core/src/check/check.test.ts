import type { Situation } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { checkBy, newcomer, recordWith, resident, situationWith, swallower, TANK } from '../../tests/support/scene.js';
import { rules } from '../rules/index.js';
import { LEVELS } from '../rules/levels.js';
import type { AnyRule } from '../rules/rule.js';
import { isError } from './check.js';

const RECORDS = [
  swallower('lupus-primus'),
  recordWith('agnus-primus'),
  recordWith('ursus-primus', {
    needs: { careTier: { value: 2, basis: 'practice' } },
    hazards: [{ kind: 'bite', severity: 'painful', basis: 'practice' }],
  }),
];

const BUSY: Situation = situationWith({
  residents: [resident('lupus-primus', 30), resident('ursus-primus', 10)],
  introductions: [{ date: '2027-03-05', animals: [newcomer('agnus-primus', 5)] }],
});

const checked = (more: Partial<Situation> = {}, some: readonly AnyRule[] = rules): ReturnType<typeof checkBy> =>
  checkBy(some, { ...BUSY, ...more }, RECORDS);

const ERROR_KEY = 'gape:predator=lupus-primus,prey=agnus-primus';

describe('check', () => {
  it('lists the gravest first: by level, failures before doubts, the soonest, then by key', () => {
    const { findings } = checked();
    const ranks = findings.map(
      ({ level, outcome, when, key }) => `${9 - LEVELS.indexOf(level)} ${outcome === 'failed' ? 0 : 1} ${when ?? '9999'} ${key}`,
    );
    expect(ranks.length).toBeGreaterThan(5);
    expect(ranks).toEqual([...ranks].sort());
    expect(findings[0]?.level).toBe('error');
  });

  it('has nothing to find in a tank with nothing in it', () => {
    const empty = checkBy(rules, situationWith(), RECORDS);
    expect(empty).toMatchObject({ date: '2027-03-01', findings: [], cautions: [], staleAcceptances: [] });
    expect(Object.keys(empty.summary.rules)).toEqual(rules.map(({ id }) => id));
  });

  it('counts every judgement by rule, and every finding by outcome and level', () => {
    const { findings, summary } = checked();
    const sum = (counts: object): number => Object.values(counts).reduce((total: number, count: number) => total + count, 0);
    const byOutcome = (outcome: 'failed' | 'cantTell'): number => sum(Object.values(summary.rules).map((counts) => counts[outcome]));
    expect(sum(summary.failed)).toBe(findings.filter(({ outcome }) => outcome === 'failed').length);
    expect(byOutcome('failed')).toBe(sum(summary.failed));
    expect(byOutcome('cantTell')).toBe(sum(summary.cantTell));
    for (const id of ['care-tier', 'swimming-room']) {
      // These judge each of the three animals once.
      expect(sum(summary.rules[id] ?? {})).toBe(3);
    }
  });

  it('a rule switched off is untested and finds nothing', () => {
    const { findings, summary } = checked({ settings: { off: ['gape'] } });
    expect(summary.rules.gape).toEqual({ passed: 0, failed: 0, cantTell: 0, inapplicable: 0, untested: 1 });
    expect(findings.filter(({ rule }) => rule === 'gape')).toEqual([]);
    expect(findings).not.toEqual([]);
  });

  it('an accepted finding stays, is marked, and counts apart', () => {
    const accepted = [{ key: ERROR_KEY, reason: 'The wolf is fed.' }];
    const before = checked();
    const after = checked({ settings: { accepted } });
    expect(after.findings.find(({ key }) => key === ERROR_KEY)).toMatchObject({ accepted: 'The wolf is fed.', outcome: 'failed' });
    expect(after.findings.map(({ key }) => key)).toEqual(before.findings.map(({ key }) => key));
    expect(after.summary.failed.error).toBe(before.summary.failed.error - 1);
    expect(after.summary.accepted).toBe(1);
    expect(after.summary.rules).toEqual(before.summary.rules);
    expect([before, after].map(({ findings }) => findings.filter(isError).length)).toEqual([
      before.summary.failed.error,
      after.summary.failed.error,
    ]);
    expect(after.staleAcceptances).toEqual([]);
  });

  it.each([
    ['2027-03-02', []],
    ['2027-03-01', [{ key: ERROR_KEY, why: 'past-its-day' }]],
    ['2027-02-28', [{ key: ERROR_KEY, why: 'past-its-day' }]],
  ])('an acceptance to look at again on %s: stale %j', (until, stale) => {
    const { findings, staleAcceptances } = checked({ settings: { accepted: [{ key: ERROR_KEY, reason: 'For now.', until }] } });
    expect(staleAcceptances).toEqual(stale);
    expect(findings.find(({ key }) => key === ERROR_KEY)?.accepted).toBe(stale.length === 0 ? 'For now.' : undefined);
  });

  it('an acceptance of what is not found is reported', () => {
    const key = 'gape:predator=agnus-primus,prey=lupus-primus';
    expect(checked({ settings: { accepted: [{ key, reason: 'x' }] } }).staleAcceptances).toEqual([{ key, why: 'not-found' }]);
  });

  it('takes any list of rules, others’ among them', () => {
    const theirs: AnyRule = {
      id: 'vendor/odd',
      question: 'Is it odd?',
      scope: 'animal',
      planning: 'option',
      monotone: { water: 'neither', rock: 'neither', fewerAnimals: 'better', delay: 'neither' },
      needs: [],
      sources: [],
      defaults: { from: { value: 1, unit: '1', basis: 'choice' } },
      measure: (stock, _options, each) => {
        for (const animal of stock.animals) each(animal.id);
      },
      judge: (_id, { from }) => ({ outcome: 'failed', level: from === 1 ? 'note' : 'warning', message: 'vendor/odd.found' }),
      tell: (id) => ({ subjects: [{ id: String(id), role: 'animal' }], data: {}, when: null, basis: 'recalled' }),
    };
    expect(checked({}, [theirs]).findings.map(({ key, level }) => [key, level])).toEqual([
      ['vendor/odd:animal=agnus-primus', 'note'],
      ['vendor/odd:animal=lupus-primus', 'note'],
      ['vendor/odd:animal=ursus-primus', 'note'],
    ]);
    expect(checked({ settings: { thresholds: { 'vendor/odd': { from: 2 } } } }, [theirs]).summary.failed.warning).toBe(3);
  });

  it('refuses a threshold the rule does not have', () => {
    expect(() => checked({ settings: { thresholds: { gape: { depth: 1 } } } })).toThrow(/option of gape .*longestShare.*received "depth"/);
  });

  it('brings the cautions of residents, newcomers and wishes', () => {
    const { cautions } = checked({ wishes: [{ species: 'ursus-primus' }], residents: [] }, []);
    expect(cautions.map(({ message }) => message)).toEqual(['caution.bite.painful', 'caution.electricity', 'caution.neverRelease']);
    expect(cautions[2]?.species).toEqual(['agnus-primus', 'ursus-primus']);
  });

  it('works in gallons, inches and degrees Fahrenheit as well', () => {
    const tank: Situation['tank'] = {
      ...TANK,
      water: { value: 63.4, unit: '[gal_us]' },
      temperature: { low: 77, high: 78.8, unit: '[degF]' },
    };
    expect(checked({ tank }).findings.map(({ key }) => key)).toEqual(checked().findings.map(({ key }) => key));
  });
});

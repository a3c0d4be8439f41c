/** Every rule comes to every outcome in some small tank, and finds there what was reasoned by hand and nothing else. */
import { type Checked, check, rules, stockOf } from '@commensal/core';
import { type Finding, situationProblems, speciesProblems } from '@commensal/schema';
import { describe, expect, it, test } from 'vitest';
import { cases as situations } from '../sentences/situations.js';
import { textOf } from '../support/repository.js';
import { differences } from './compare.js';
import { gapsIn, reachedBy } from './coverage.js';
import { mergePatch } from './merge-patch.js';
import { type Case, caseFiles, casesOf, misshapen } from './read-cases.js';

const files = caseFiles();
const sentences: Record<string, string> = JSON.parse(textOf('packages/report/messages/en.json'));
/** What a rule says. Sentences of a report for several findings at once are held to be said in `tests/sentences`. */
const messagesOf = (rule: string): string[] =>
  Object.keys(sentences).filter((key) => key.startsWith(`${rule}.`) && !/\.(several|severalNotes|one)$/.test(key));

const ruleOf = (id: string) => rules.filter((rule) => rule.id === id);

function checked({ document, library }: Case, rule: string): Checked {
  const { stock, problems } = stockOf(document, library);
  expect(problems).toEqual([]);
  return check(stock, ruleOf(rule));
}

test('every rule has a file of cases, and every file a rule', () => {
  expect([...files.keys()]).toEqual(rules.map(({ id }) => id).sort());
});

describe.each([...files])('%s', (id, file) => {
  const cases = casesOf(file);

  it('names its rule, has cases under names of their own, and nothing that is not read', () => {
    expect(file.rule).toBe(id);
    expect(cases.length).toBeGreaterThan(0);
    expect(new Set(cases.map(({ name }) => name)).size).toBe(cases.length);
    expect(cases.filter(({ why }) => why.trim().length < 20).map(({ name }) => name)).toEqual([]);
    expect(misshapen(file)).toEqual([]);
  });

  it.each(cases.map((one) => [one.name, one] as const))('%s', (_name, one) => {
    expect(situationProblems(one.document)).toEqual([]);
    for (const record of one.changed) expect(speciesProblems(record), record.id).toEqual([]);
    expect(differences(checked(one, id), id, one)).toEqual([]);
  });

  it('comes to every outcome and says every sentence, save those that it never can', () => {
    const reached = new Set(cases.flatMap((one) => reachedBy(checked(one, id), id)));
    expect(gapsIn(reached, messagesOf(id), file.never)).toEqual([]);
  });
});

test('what is said never to come up does not come up in any other situation either', () => {
  const never = new Map([...files].map(([id, file]) => [id, Object.keys(file.never)]));
  const limited = rules.filter(({ id }) => (never.get(id) ?? []).length > 0);
  const does = situations.flatMap(({ name, situation, library }) => {
    const found = check(stockOf(situation, library).stock, limited);
    return limited.flatMap(({ id }) =>
      reachedBy(found, id)
        .filter((one) => never.get(id)?.includes(one))
        .map((one) => `${id}: "${one}" in "${name}"`),
    );
  });
  expect(limited.length).toBeGreaterThan(0);
  expect(situations.length).toBeGreaterThan(100);
  expect([...new Set(does)]).toEqual([]);
});

describe('the comparison', () => {
  const finding: Finding = {
    key: 'gape:predator=one,prey=two',
    rule: 'gape',
    outcome: 'failed',
    level: 'error',
    subjects: [],
    message: 'gape.fitsNow',
    data: { limit: { value: 4.8, unit: 'cm' }, interest: { keys: ['habitual'] } },
    when: '2027-03-01',
    basis: 'practice',
  };
  const found = {
    findings: [finding],
    summary: { rules: { gape: { passed: 1, failed: 1, cantTell: 0, inapplicable: 0, untested: 0 } } },
  } as unknown as Checked;
  const wanted = { key: finding.key, outcome: 'failed', level: 'error', message: 'gape.fitsNow', when: '2027-03-01' } as const;
  const said = (finds: Case['finds'], passed = 1): string[] => differences(found, 'gape', { finds, passed, inapplicable: 0 });

  it('is content with what is as expected', () => {
    expect(said([{ ...wanted, data: { limit: '4.8 cm', interest: 'habitual' } }])).toEqual([]);
  });

  it.each([
    ['a finding that is not listed', said([]), ['not listed: failed error gape.fitsNow gape:predator=one,prey=two 2027-03-01']],
    [
      'a finding that is listed and missing',
      said([wanted, { ...wanted, key: 'gape:predator=two,prey=one', when: null }]),
      ['missing: failed error gape.fitsNow gape:predator=two,prey=one'],
    ],
    ['another level', said([{ ...wanted, level: 'note' }]), ['gape:predator=one,prey=two: level is error, expected note']],
    ['another day', said([{ ...wanted, when: null }]), ['gape:predator=one,prey=two: when is 2027-03-01, expected null']],
    ['another figure', said([{ ...wanted, data: { limit: '5 cm' } }]), ['gape:predator=one,prey=two: limit is 4.8 cm, expected 5 cm']],
    [
      'a figure that is not there',
      said([{ ...wanted, data: { depth: '5 cm' } }]),
      ['gape:predator=one,prey=two: depth is undefined, expected 5 cm'],
    ],
    ['another count', said([wanted], 2), ['passed: 1, expected 2']],
  ])('takes amiss %s', (_what, is, expected) => expect(is).toEqual(expected));
});

describe('the coverage', () => {
  const all = ['passed', 'failed error', 'x.a'];
  const never = Object.fromEntries(
    ['inapplicable', 'failed warning', 'failed note', 'cantTell error', 'cantTell warning', 'cantTell note'].map((one) => [
      one,
      'for a good reason',
    ]),
  );

  it('is content with what comes up or never can', () => expect(gapsIn(new Set(all), ['x.a'], never)).toEqual([]));

  it('names what does not come up', () => {
    expect(gapsIn(new Set(['passed', 'x.a']), ['x.a', 'x.b'], never)).toEqual([
      'no case comes to "failed error"',
      'no case comes to "x.b"',
    ]);
  });

  it('names reasons that are not needed, or not given', () => {
    expect(gapsIn(new Set(all), ['x.a'], { ...never, passed: 'for a good reason', 'x.c': 'for a good reason', inapplicable: '' })).toEqual([
      '"inapplicable" is said never to come up without a reason',
      '"passed", said never to come up, does',
      '"x.c", said never to come up, is no outcome or message',
    ]);
  });

  it('names what comes up without a sentence', () => {
    expect(gapsIn(new Set([...all, 'x.z']), ['x.a'], never)).toEqual(['"x.z" comes up and has no sentence']);
  });
});

describe('a merge patch', () => {
  // The examples of RFC 7396, appendix A.
  it.each([
    [{ a: 'b' }, { a: 'c' }, { a: 'c' }],
    [{ a: 'b' }, { b: 'c' }, { a: 'b', b: 'c' }],
    [{ a: 'b' }, { a: null }, {}],
    [{ a: ['b'] }, { a: 'c' }, { a: 'c' }],
    [{ a: 'c' }, { a: ['b'] }, { a: ['b'] }],
    [{ a: { b: 'c' } }, { a: { b: 'd', c: null } }, { a: { b: 'd' } }],
    [{ a: [{ b: 'c' }] }, { a: [1] }, { a: [1] }],
    [
      ['a', 'b'],
      ['c', 'd'],
      ['c', 'd'],
    ],
    [{ a: 'b' }, ['c'], ['c']],
    [{ e: null }, { a: 1 }, { e: null, a: 1 }],
    [[1, 2], { a: 'b', c: null }, { a: 'b' }],
    [{}, { a: { bb: { ccc: null } } }, { a: { bb: {} } }],
  ])('of %j and %j is %j', (document, patch, merged) => expect(mergePatch(document, patch)).toEqual(merged));
});

import type { Finding } from '@commensal/schema';
import { describe, expect, test } from 'vitest';
import { findingOf, metric, nothing, swallowing } from '../tests/support/club.js';
import { cautionsText, findingsText, grouped, sayGroup, staleText, summaryText } from './findings-text.js';

const oneLine = (text: string): string => text.replaceAll(/\s+/g, ' ');

describe('findings that say the same of one animal', () => {
  const first = swallowing('wick', 'moll');
  const others = [swallowing('wick', 'choir'), swallowing('wick', 'choir#2', { when: '2027-12-01' })];

  test('are one group', () => expect(grouped([first, ...others])).toEqual([{ first, others }]));

  test('are told once, the others named behind, with their day where it is another', () => {
    expect(oneLine(sayGroup(metric, { first, others }))).toBe(
      "From 14 September 2027 Wick (12.5 cm by then) could swallow Moll's perch (6 cm): its mouth takes a body 2 cm deep, and this one is 1.5 cm deep. " +
        'Such prey is its food. Leave one of the two out, or part them by 13 September 2027. The same goes for Choir and Choir #2 (from 1 December 2027).',
    );
  });

  test('name the safe length of each', () => {
    const safe = (prey: string, value: number, when: string): Finding =>
      swallowing('wick', prey, { when, data: { ...first.data, safeLength: { value, unit: 'cm' } } });
    const text = oneLine(
      sayGroup(metric, {
        first: safe('moll', 7, '2027-09-14'),
        others: [safe('choir', 8, '2027-09-14'), safe('choir#2', 9, '2027-12-01')],
      }),
    );
    expect(text).toContain('Choose one of 7 cm or more');
    expect(text).toContain('The same goes for Choir (8 cm or more) and Choir #2 (from 1 December 2027, 9 cm or more).');
  });

  test.each<[string, Finding]>([
    ['of another animal', swallowing('moll', 'choir')],
    ['at another level', swallowing('wick', 'choir', { level: 'warning' })],
    ['with another outcome', swallowing('wick', 'choir', { outcome: 'cantTell' })],
    ['with another sentence', swallowing('wick', 'choir', { message: 'gape.fitsNow' })],
    ['about another appetite', swallowing('wick', 'choir', { data: { ...first.data, interest: { keys: ['opportunist'] } } })],
    ['about a cleaner', swallowing('wick', 'choir', { data: { ...first.data, spared: { keys: ['cleaner'] } } })],
    [
      'with a way out that the other has not',
      swallowing('wick', 'choir', { data: { ...first.data, safeLength: { value: 8, unit: 'cm' } } }),
    ],
    ['that was accepted', swallowing('wick', 'choir', { accepted: 'Watched daily.' })],
  ])('one %s stands by itself', (_, other) => expect(grouped([first, other])).toHaveLength(2));

  test('accepted ones are never grouped, not even with each other', () => {
    const accepted = [first, ...others].map((finding) => ({ ...finding, accepted: 'Watched daily.' }));
    expect(grouped(accepted)).toHaveLength(3);
  });

  test('findings of three animals are not grouped', () => {
    const three = (key: string): Finding => findingOf({ key, subjects: ['wick', 'moll', 'choir'].map((id) => ({ id, role: 'animal' })) });
    expect(grouped([three('b:1'), three('b:2')])).toHaveLength(2);
  });
});

describe('findings of single animals', () => {
  const wanting = (id: string, low: number, more: Partial<Finding> = {}): Finding =>
    findingOf({
      key: `water:salinity=${id}`,
      message: 'water.salinityUnknown',
      outcome: 'cantTell',
      subjects: [{ id, role: 'salinity' }],
      data: { wantsLow: { value: low, unit: '1' }, wantsHigh: { value: 36, unit: '1' } },
      ...more,
    });

  test('that say the same are told once', () => {
    const [group, ...more] = grouped([wanting('wick', 32), wanting('moll', 32), wanting('choir', 32)]);
    expect(more).toEqual([]);
    expect(sayGroup(metric, group ?? { first: wanting('wick', 32), others: [] })).toBe(
      "Whether the salinity suits Wick cannot be told: the situation does not give it. It wants 32 to 36. Measure it. The same goes for Moll's perch and Choir.",
    );
  });

  test('with other numbers, on another day or accepted stand by themselves', () => {
    const others = [wanting('moll', 33), wanting('moll', 32, { when: '2027-04-01' }), wanting('moll', 32, { accepted: 'Brackish.' })];
    expect(others).toHaveLength(3);
    for (const other of others) expect(grouped([wanting('wick', 32), other])).toHaveLength(2);
  });
});

describe('the text of findings', () => {
  const at = (level: Finding['level'], outcome: Finding['outcome'], id = 'wick'): Finding =>
    findingOf({ key: `${level}-${outcome}-${id}`, level, outcome, subjects: [{ id, role: 'animal' }] });

  test('of nothing is empty', () => expect(findingsText(metric, [], true)).toBe(''));

  test('goes by level, what failed before what cannot be told', () => {
    const all = (['note', 'warning', 'error'] as const).flatMap((level) => [at(level, 'cantTell'), at(level, 'failed')]);
    const titles = findingsText(metric, all, true)
      .split('\n')
      .filter((line) => /^ {2}\S/.test(line));
    expect(titles).toEqual([
      '  Serious',
      '  Cannot be told, serious if so',
      '  To decide',
      '  Cannot be told, to decide if so',
      '  Good to know',
      '  Cannot be told, good to know',
    ]);
  });

  test('has a finding as a paragraph under its title', () => {
    expect(findingsText(metric, [at('error', 'cantTell')], false)).toBe(
      [
        '  Cannot be told, serious if so',
        '    How hard Wick is to keep is not on record, so it cannot be told whether the keeper',
        '    is ready for it. Ask those who keep it first.',
      ].join('\n'),
    );
  });

  test('hides notes and counts them', () => {
    const notes = [at('note', 'failed'), at('note', 'cantTell', 'moll')];
    expect(findingsText(metric, notes, false)).toBe('  2 findings are good to know: run again with --notes to read them.');
    expect(findingsText(metric, notes.slice(1), false)).toBe('  One finding is good to know: run again with --notes to read it.');
    expect(findingsText(metric, [at('error', 'failed'), ...notes], false)).toMatch(
      /\n\n {2}2 more findings are good to know: run again with --notes to read them\.$/,
    );
  });

  test('shows notes where they are asked for', () => {
    const text = findingsText(metric, [at('note', 'failed')], true);
    expect(text).toMatch(/^ {2}Good to know\n {4}How hard Wick/);
    expect(text).not.toContain('--notes');
  });

  test('shows what was accepted, and why', () => {
    expect(oneLine(findingsText(metric, [{ ...at('error', 'failed'), accepted: 'He lends a hand' }], false))).toMatch(
      /Serious How hard Wick .* \(Accepted: He lends a hand\)$/,
    );
  });
});

test('cautions stand under a heading, and not at all where there are none', () => {
  expect(cautionsText(metric, [])).toBe('');
  expect(
    cautionsText(metric, [{ kind: 'never-release', severity: 'duty', species: ['vigilia-prima'], message: 'caution.neverRelease' }]),
  ).toBe(['Cautions', '--------', '  Never set an aquarium animal free. If one cannot stay, return it to a shop or a club.'].join('\n'));
});

test('acceptances to look at again name the key', () => {
  const text = staleText(metric, [
    { key: 'gape:a', why: 'not-found' },
    { key: 'gape:b', why: 'past-its-day' },
  ]);
  expect(text.split('\n')).toEqual([
    '  An accepted finding no longer applies; take it out of the settings: gape:a',
    '  An acceptance has reached its day; look at the finding again: gape:b',
  ]);
});

test('the summary counts everything, doubts and accepted findings as well', () => {
  const counts = { ...nothing, failed: { error: 1, warning: 2, note: 3 }, cantTell: { error: 4, warning: 5, note: 6 }, accepted: 1 };
  expect(oneLine(summaryText(metric, counts))).toBe(
    'Failed: 1 serious, 2 to decide, 3 good to know. Cannot be told: 4 that would be serious, 5 to decide, 6 good to know. One finding is accepted.',
  );
  expect(oneLine(summaryText(metric, nothing))).toBe(
    'Failed: 0 serious, 0 to decide, 0 good to know. Cannot be told: 0 that would be serious, 0 to decide, 0 good to know.',
  );
});

import type { Finding } from '@commensal/schema';
import { describe, expect, test } from 'vitest';
import { findingOf, metric, nothing } from '../tests/support/club.js';
import { setText } from './blocks.js';
import { cautionsText, findingsText, staleSection, summaryText } from './findings-text.js';

const oneLine = (text: string): string => text.replaceAll(/\s+/g, ' ');

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
  const stale = staleSection(metric, [
    { key: 'gape:a', why: 'not-found' },
    { key: 'gape:b', why: 'past-its-day' },
  ]);
  expect(setText([stale]).split('\n')).toEqual([
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

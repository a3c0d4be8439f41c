import type { Finding } from '@commensal/schema';
import { describe, expect, test } from 'vitest';
import { findingOf, metric, swallowing } from '../tests/support/club.js';
import { type Group, grouped, labelOf, sayGroup } from './groups.js';

const oneLine = (text: string): string => text.replaceAll(/\s+/g, ' ');

describe('findings that say the same of one animal', () => {
  const first = swallowing('wick', 'moll');
  const others = [swallowing('wick', 'choir'), swallowing('wick', 'choir#2', { when: '2027-12-01' })];

  test('are one group', () => expect(grouped(metric, [first, ...others])).toEqual([{ first, others, by: 'last' }]));

  test('are told once, the others named behind, with their day where it is another', () => {
    expect(oneLine(sayGroup(metric, { first, others, by: 'last' }))).toBe(
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
        by: 'last',
      }),
    );
    expect(text).toContain('Choose one of 7 cm or more');
    expect(text).toContain('The same goes for Choir (8 cm or more) and Choir #2 (from 1 December 2027, 9 cm or more).');
  });

  test.each<[string, Finding]>([
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
  ])('one %s stands by itself', (_, other) => expect(grouped(metric, [first, other])).toHaveLength(2));

  test('accepted ones are never grouped, not even with each other', () => {
    const accepted = [first, ...others].map((finding) => ({ ...finding, accepted: 'Watched daily.' }));
    expect(grouped(metric, accepted)).toHaveLength(3);
  });

  test('one of another swallower is told in place of the first', () => {
    const group = grouped(metric, [swallowing('wick', 'choir'), swallowing('moll', 'choir', { when: '2027-12-01' })]);
    expect(group).toHaveLength(1);
    expect(oneLine(sayGroup(metric, group[0] as Group))).toMatch(
      /^From 14 September 2027 Wick .* It is the same with Moll's perch \(from 1 December 2027\) in place of Wick\.$/,
    );
  });

  test('one that is told with the last that differs is not told with the first as well', () => {
    const groups = grouped(metric, [first, ...others, swallowing('moll', 'choir'), swallowing('moll', 'wick')]);
    expect(groups.map(({ by, others: more }) => [by, more.length])).toEqual([
      ['last', 2],
      ['last', 1],
    ]);
  });
});

describe('findings of three animals', () => {
  const slow = (id: string, more: Partial<Finding> = {}): Finding =>
    findingOf({
      key: `niche:feeder=${id}`,
      message: 'niche.outpaced',
      subjects: [
        { id, role: 'feeder' },
        { id: 'choir', role: 'mate' },
        { id: 'choir#2', role: 'mate' },
      ],
      ...more,
    });

  test('are told once where only the first differs', () => {
    const [group, ...more] = grouped(metric, [slow('wick'), slow('moll')]);
    expect(more).toEqual([]);
    expect(sayGroup(metric, group as Group)).toMatch(/^Wick feeds slowly, .*: Choir and Choir #2\. .* The same goes for Moll's perch\.$/);
  });

  test.each<[string, Partial<Finding>]>([
    ['other animals', { subjects: ['moll', 'choir', 'wick'].map((id, at) => ({ id, role: at === 0 ? 'feeder' : 'mate' })) }],
    ['other figures', { data: { byHand: { keys: ['feeding-by-hand'] } } }],
    ['another day', { when: '2027-04-01' }],
  ])('stand by themselves with %s', (_, more) => expect(grouped(metric, [slow('wick'), slow('moll', more)])).toHaveLength(2));
});

describe('of two in one role', () => {
  const biting = (aggressor: string, target: string, missing: number, swapped = false): Finding => {
    const subjects = [aggressor, target].map((id) => ({ id, role: 'rival' }));
    return findingOf({
      key: `rivalry:${aggressor}-${target}`,
      message: 'rivalry.noRefuge',
      subjects: swapped ? subjects.reverse() : subjects,
      data: {
        aggressor: { animal: aggressor },
        target: { animal: target },
        toward: { keys: ['its-kin'] },
        step: { keys: ['bites'] },
        aggressorLength: { value: 9, unit: 'cm' },
        targetLength: { value: 6, unit: 'cm' },
        wins: { value: 10, unit: '1' },
        left: { value: 0, unit: 'L' },
        missingRock: { value: missing, unit: 'L' },
      },
    });
  };

  test('the one that does it first counts as the first, wherever it stands', () => {
    const groups = grouped(metric, [biting('moll', 'choir', 3), biting('moll', 'wick', 5, true)]);
    expect(groups).toHaveLength(1);
    expect(sayGroup(metric, groups[0] as Group).replaceAll('\u00A0', ' ')).toMatch(/ The same goes for Wick \(5 L more rock\)\.$/);
  });

  test('what would do is named only where it is another amount', () => {
    const groups = grouped(metric, [biting('moll', 'choir', 3), biting('moll', 'wick', 3, true)]);
    expect(sayGroup(metric, groups[0] as Group)).toMatch(/ The same goes for Wick\.$/);
  });
});

describe('findings that a sentence for several tells of', () => {
  const short = (id: string, claimed: number, more: Partial<Finding> = {}): Finding =>
    findingOf({
      key: `rock-crowding:claimant=${id}`,
      message: 'rock-crowding.tooLittle',
      subjects: ['wick', 'moll', 'choir']
        .sort((one) => (one === id ? -1 : 1))
        .map((one) => ({ id: one, role: one === id ? 'claimant' : 'rival' })),
      data: { claimed: { value: claimed, unit: 'L' }, rock: { value: 10, unit: 'L' }, missingRock: { value: claimed - 10, unit: 'L' } },
      ...more,
    });
  const said = (findings: Finding[]): string[] =>
    grouped(metric, findings).map((group) => sayGroup(metric, group).replaceAll('\u00A0', ' '));

  test('are one list, with what would do for all', () => {
    expect(said([short('wick', 12), short('moll', 15), short('choir', 12.5)])).toEqual([
      'There is too little rock for the territories of these animals: there is 10 L, and counting those that are in its way each wants more: ' +
        "Wick (12 L); Moll's perch (15 L); Choir (12.5 L). 5 L more would do for all, or fewer animals that claim it.",
    ]);
  });

  test('a single one is told at full length', () => {
    expect(said([short('wick', 12)])).toEqual([
      "There is too little rock for Wick beside Moll's perch and Choir: together they claim 12 L of it, and there is 10 L. 2 L more would do, or fewer animals that claim it.",
    ]);
  });

  test('what falls short by less than is printed is a little', () => {
    expect(said([short('wick', 10)])[0]).toContain('A little more would do');
    expect(said([short('wick', 10), short('moll', 10)])[0]).toContain('A little more would do for all');
  });

  test('stand apart where what is said of all differs, and where they were accepted', () => {
    const rock = { claimed: { value: 12, unit: 'L' }, rock: { value: 11, unit: 'L' }, missingRock: { value: 1, unit: 'L' } };
    expect(said([short('wick', 12), short('moll', 12, { data: rock })])).toHaveLength(2);
    expect(said([short('wick', 12), short('moll', 12, { level: 'error' })])).toHaveLength(2);
    expect(said([short('wick', 12), short('moll', 12, { accepted: 'Rock is ordered.' })])).toHaveLength(2);
  });

  test('beneath them each figure has its animal before it', () => {
    const [group] = grouped(metric, [short('wick', 12), short('moll', 15)]);
    expect([group?.first, ...(group?.others ?? [])].map((finding) => labelOf(metric, group as Group, finding as Finding))).toEqual([
      'Wick',
      "Moll's perch",
    ]);
  });

  const note = (predator: string, prey: string, when: string): Finding =>
    swallowing(predator, prey, { level: 'note', when, data: { interest: { keys: ['noneRecorded'] }, lastSafeDay: { date: when } } });

  test('notes on swallowing are a list by swallower, with the day of each', () => {
    const notes = [note('wick', 'moll', '2027-09-14'), note('moll', 'choir', '2027-10-01'), note('wick', 'choir', '2028-01-01')];
    expect(said(notes)).toEqual([
      "As they grow, these could swallow the animals named behind them: Wick – Moll's perch (from 14 September 2027) and Choir (from 1 January 2028); " +
        "Moll's perch – Choir (from 1 October 2027). They are not known to hunt such prey. Watch them, or part them by then.",
    ]);
    const [group] = grouped(metric, notes);
    expect(labelOf(metric, group as Group, notes[0] as Finding)).toBe("Wick and Moll's perch");
    expect(said([swallowing('wick', 'moll'), swallowing('moll', 'choir')])).toHaveLength(2);
  });

  test('kin on different days are named by day', () => {
    const kin = (earlier: string, later: string, day: string): Finding =>
      findingOf({
        key: `family-batch:${earlier}-${later}`,
        message: 'family-batch.apart',
        subjects: [
          { id: earlier, role: 'earlier' },
          { id: later, role: 'later' },
        ],
        data: { kinGroup: { keys: ['wrasses'] }, earlierDay: { date: '2026-05-01' }, laterDay: { date: day } },
      });
    expect(said([kin('wick', 'moll', '2027-04-02'), kin('choir', 'moll', '2027-04-02')])[0]).toContain(
      "on one day: Wick and Choir (1 May 2026); Moll's perch (2 April 2027). Put kin in",
    );
  });
});

describe('findings of single animals', () => {
  const wanting = (id: string, low: number, more: Partial<Finding> = {}): Finding =>
    findingOf({
      key: `water:salinity=${id}`,
      message: 'water.salinity',
      subjects: [{ id, role: 'salinity' }],
      data: {
        wantsLow: { value: low, unit: '1' },
        wantsHigh: { value: 36, unit: '1' },
        meetsLow: { value: 30, unit: '1' },
        meetsHigh: { value: 30, unit: '1' },
      },
      ...more,
    });

  test('that say the same are told once', () => {
    const [group, ...more] = grouped(metric, [wanting('wick', 32), wanting('moll', 32), wanting('choir', 32)]);
    expect(more).toEqual([]);
    expect(sayGroup(metric, group as Group)).toBe(
      "Wick wants a salinity of 32 to 36; this tank has 30. Keep the water within its range. The same goes for Moll's perch and Choir.",
    );
  });

  test('that say the same count as such whatever else the data hold', () => {
    const unsaid = wanting('moll', 32);
    expect(grouped(metric, [wanting('wick', 32), { ...unsaid, data: { ...unsaid.data, missing: { keys: ['length'] } } }])).toHaveLength(1);
  });

  test('with other numbers, on another day or accepted stand by themselves', () => {
    const others = [wanting('moll', 33), wanting('moll', 32, { when: '2027-04-01' }), wanting('moll', 32, { accepted: 'Brackish.' })];
    expect(others).toHaveLength(3);
    for (const other of others) expect(grouped(metric, [wanting('wick', 32), other])).toHaveLength(2);
  });
});

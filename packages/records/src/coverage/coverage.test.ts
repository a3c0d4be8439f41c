import { type CoverageCounts, coverageProblems, type SpeciesRecord } from '@commensal/schema';
import { records } from '@commensal/species-sample';
import { describe, expect, it } from 'vitest';
import { en } from '@commensal/report/en';
import { coverageOf, STANDINGS } from './coverage.js';
import { coveragePicture } from './coverage-picture.js';
import { coverageCsv, coverageMarkdown, coverageText } from './coverage-table.js';
import { FIELDS } from './fields.js';

const bare = (id: string, family: string, more: Partial<SpeciesRecord> = {}): SpeciesRecord => ({
  $schema: 'https://commensal.example/schema/1.0/species.schema.json',
  id,
  addedIn: '2026.1',
  taxon: { scientificName: 'Unus primus', genus: 'Unus', family },
  vernacularNames: [{ name: 'example', language: 'en' }],
  form: 'fish',
  sources: [],
  ...more,
});

/** Two of one family and one of another: counted by hand below. */
const THREE = [
  bare('unus-primus', 'Exemplidae', {
    size: { maximum: { value: 12, unit: 'cm', basis: 'measured', source: 'somebody-1999' } },
    conduct: { harms: [] },
    hazards: [
      { kind: 'venom', severity: 'painful', basis: 'measured', source: 'somebody-1999' },
      { kind: 'cut', severity: 'painful', basis: 'recalled' },
    ],
  }),
  bare('unus-alter', 'Exemplidae', { size: { maximum: { value: 9, unit: 'cm', basis: 'recalled' } } }),
  bare('duo-primus', 'Specimenidae', { form: 'crab' }),
];

const empty = { measured: 0, derived: 0, imputed: 0, practice: 0, recalled: 0, none: 0, absent: 0 };
const sum = (counts: CoverageCounts): number => Object.values(counts).reduce((one, other) => one + other, 0);

describe('what the fields of three records rest on', () => {
  const coverage = coverageOf(THREE);
  const of = (field: string) => coverage.fields.find((one) => one.field === field)?.counts;

  it('each record counts once a field', () => {
    expect(of('size.maximum')).toEqual({ ...empty, measured: 1, recalled: 1, absent: 1 });
    expect(of('growth.rate')).toEqual({ ...empty, absent: 3 });
  });

  it('a list rests on its weakest entry', () => expect(of('hazards')).toEqual({ ...empty, recalled: 1, absent: 2 }));

  it('an empty list is known to be empty, not absent', () => expect(of('conduct.harms')).toEqual({ ...empty, none: 1, absent: 2 }));

  it('totals and families add up', () => {
    expect(coverage.total).toEqual({ ...empty, measured: 1, recalled: 2, none: 1, absent: 3 * FIELDS.length - 4 });
    expect(coverage.families.map(({ family, records: count }) => [family, count])).toEqual([
      ['Exemplidae', 2],
      ['Specimenidae', 1],
    ]);
  });

  it('the forms are told', () => expect(coverage.forms).toEqual(['crab', 'fish']));
});

describe('what the sample rests on', () => {
  const coverage = coverageOf(records);

  it('is a valid document', () => expect(coverageProblems(coverage)).toEqual([]));

  it('every field of every record is counted once', () => {
    expect(coverage.fields.map(({ field }) => field)).toEqual(FIELDS);
    for (const { field, counts } of coverage.fields) expect(sum(counts), field).toBe(records.length);
    for (const standing of STANDINGS) {
      expect(coverage.fields.reduce((total, { counts }) => total + counts[standing], 0)).toBe(coverage.total[standing]);
      expect(coverage.families.reduce((total, { counts }) => total + counts[standing], 0)).toBe(coverage.total[standing]);
    }
  });

  it('reads in columns, Markdown and comma-separated values alike', () => {
    const maximum = coverage.fields.find(({ field }) => field === 'size.maximum')?.counts;
    const numbers = STANDINGS.map((standing) => String(maximum?.[standing]));
    expect(coverageText(coverage)).toMatch(new RegExp(`^size\\.maximum +${numbers.join(' +')}$`, 'm'));
    expect(coverageMarkdown(coverage, en)).toContain(`| \`size.maximum\` | the greatest length on record | ${numbers.join(' | ')} |`);
    expect(coverageCsv(coverage)).toContain(`\nfield,size.maximum,${records.length},${numbers.join(',')}\n`);
    const cells = coverageCsv(coverage)
      .trim()
      .split('\n')
      .map((line) => line.split(',').length);
    expect(new Set(cells)).toEqual(new Set([10]));
  });
});

describe('the picture', () => {
  const picture = coveragePicture(coverageOf(THREE));

  it('draws a box for each count but none for nothing, its width the share of records', () => {
    const boxes = [...picture.matchAll(/width="([\d.]+)" height="13" [^>]+><title>size\.maximum: (\w+) (\d) of 3</g)].map(
      ([, ...all]) => all,
    );
    expect(boxes).toEqual([
      ['186.7', 'measured', '1'],
      ['186.7', 'recalled', '1'],
      ['186.7', 'absent', '1'],
    ]);
  });

  it('tells bases apart without colour: each has a pattern or a letter of its own', () => {
    const looks = [...picture.matchAll(/<pattern id="of-\w+"[^>]*>(?:<rect[^>]*>)(.*?)<\/pattern>/g)].map(([, marks]) => marks);
    expect(looks).toHaveLength(STANDINGS.length);
    const letters = [...picture.matchAll(/font-weight="bold">([A-Z])</g)].map(([, letter]) => letter);
    expect(new Set(letters)).toEqual(new Set(['M', 'D', 'I', 'P', 'R', 'N']));
    // Plain are only the first, which has its letter, and the last, which is empty.
    expect(looks.filter((marks) => marks === '')).toHaveLength(2);
  });
});

it('nothing can be said of no records', () => {
  expect(() => coverageOf([])).toThrow(RangeError);
});

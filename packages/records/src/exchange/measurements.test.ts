import { speciesProblems, type SpeciesRecord } from '@commensal/schema';
import { bibliography, records } from '@commensal/species-sample';
import { describe, expect, it } from 'vitest';
import { documents } from '../../../schema/source/index.js';
import { figureWords, importMeasurements, MEASUREMENT_FIELDS, type MeasurementImport } from './measurements.js';

const entries = records.map((record) => ({ file: `${record.id}.species.json`, record }));
const imported = (text: string, options: { readonly preferMeasured?: boolean; readonly with?: typeof entries } = {}): MeasurementImport =>
  importMeasurements(text, {
    file: 'm.csv',
    entries: options.with ?? entries,
    bibliography,
    preferMeasured: options.preferMeasured ?? false,
  });

const HEADER = 'scientificName,field,value,low,high,unit,basis,source,lengthType,per,note';
const table = (...rows: readonly string[]): string => `${[HEADER, ...rows].join('\n')}\n`;
const gramma = records.find(({ id }) => id === 'gramma-loreto') as SpeciesRecord;

const at = (record: unknown, path: string): unknown =>
  path.split('.').reduce<unknown>((here, key) => (here as Record<string, unknown> | undefined)?.[key], record);

describe('the fields that measurements go to', () => {
  it('are all quantities of the schema, and nothing else', () => {
    interface Node {
      readonly $ref?: string;
      readonly properties?: Readonly<Record<string, Node>>;
    }
    const schema = documents.species as unknown as Node & { readonly $defs: Readonly<Record<string, Node>> };
    const quantitiesIn = (node: Node, path: string): string[] => {
      const { properties = {} } = node.$ref === undefined ? node : (schema.$defs[node.$ref.split('/').at(-1) ?? ''] ?? {});
      if (properties.unit !== undefined && properties.low !== undefined) return [path.slice(1)];
      return Object.entries(properties).flatMap(([key, part]) => quantitiesIn(part, `${path}.${key}`));
    };
    const fields = quantitiesIn(schema, '');
    expect(fields.length).toBeGreaterThan(20);
    expect([...MEASUREMENT_FIELDS].sort()).toEqual(fields.sort());
  });
});

describe('a row that is right', () => {
  const result = imported(table('Gramma loreto,lifeCycle.longevity,5,4,7,a,measured,morat-2020,,,at 25 degrees'));

  it('is added where it belongs, with its source', () => {
    expect(result).toMatchObject({ problems: [], conflicts: [], replaced: [], already: 0 });
    expect(result.added).toEqual([
      {
        line: 2,
        id: 'gramma-loreto',
        field: 'lifeCycle.longevity',
        figure: { value: 5, low: 4, high: 7, unit: 'a', basis: 'measured', source: 'morat-2020', note: 'at 25 degrees' },
        before: undefined,
      },
    ]);
    const [changed] = result.changed;
    expect(changed?.file).toBe('gramma-loreto.species.json');
    expect(at(changed?.record, 'lifeCycle.longevity')).toEqual(result.added[0]?.figure);
    expect(changed?.record.sources).toEqual([...new Set([...gramma.sources, 'morat-2020'])].sort());
    expect(speciesProblems(changed?.record)).toEqual([]);
  });

  it('changes nothing else, and keeps the order of keys', () => {
    const record = result.changed[0]?.record as SpeciesRecord;
    const { longevity: _, ...lifeCycle } = record.lifeCycle ?? {};
    expect({ ...record, lifeCycle, sources: gramma.sources }).toEqual(gramma);
    expect(Object.keys(record)).toEqual(Object.keys(gramma));
    expect(at(gramma, 'lifeCycle.longevity')).toBeUndefined();
    // By the schema, longevity stands between the change of sex and the offer of tank-raised animals.
    expect(Object.keys(record.lifeCycle ?? {})).toEqual(
      ['sexChange', 'longevity', 'captiveBred'].filter((key) => at(record, `lifeCycle.${key}`)),
    );
  });

  it('says so when it is there already', () => {
    const again = imported(table('Gramma loreto,lifeCycle.longevity,5,4,7,a,measured,morat-2020,,,at 25 degrees'), {
      with: [...result.changed],
    });
    expect(again).toEqual({ changed: [], added: [], replaced: [], conflicts: [], already: 1, problems: [] });
  });

  it('may name the species by id or by a synonym', () => {
    const other = records.find(
      (record) => (record.synonyms?.length ?? 0) > 0 && at(record, 'shape.defendedDepth') === undefined,
    ) as SpeciesRecord;
    const text = `id,scientificName,field,value,unit,basis,per\n,${other.synonyms?.[0]},shape.defendedDepth,0.4,1,recalled,SL\ngramma-loreto,,shape.defendedDepth,0.4,1,recalled,SL\n`;
    const { added, problems } = imported(text);
    expect(problems).toEqual([]);
    expect(added.map(({ id, field }) => `${id} ${field}`)).toEqual([
      `${other.id} shape.defendedDepth`,
      'gramma-loreto shape.defendedDepth',
    ]);
  });
});

describe('a field that has a figure already', () => {
  const row = 'Gramma loreto,size.maximum,9.1,,,cm,measured,morat-2020,TL,,';

  it('is a conflict, told with both, and left', () => {
    const { changed, added, conflicts, problems } = imported(table(row));
    expect({ changed, added, problems }).toEqual({ changed: [], added: [], problems: [] });
    expect(conflicts).toEqual([
      {
        line: 2,
        id: 'gramma-loreto',
        field: 'size.maximum',
        figure: { value: 9.1, unit: 'cm', lengthType: 'TL', basis: 'measured', source: 'morat-2020' },
        before: gramma.size?.maximum,
      },
    ]);
  });

  it('gives way to a measured one where that is asked for, and the figure it held is told', () => {
    const { changed, conflicts, replaced } = imported(table(row), { preferMeasured: true });
    expect(conflicts).toEqual([]);
    expect(replaced).toMatchObject([{ field: 'size.maximum', before: gramma.size?.maximum }]);
    expect(at(changed[0]?.record, 'size.maximum')).toEqual(replaced[0]?.figure);
    expect(Object.keys(changed[0]?.record.size ?? {})).toEqual(Object.keys(gramma.size ?? {}));
  });

  it.each([
    ['a measured one to a measured one', 'Gramma loreto,shape.bodyDepth,0.4,,,1,measured,morat-2020,,SL,'],
    ['a recalled one to another from practice', 'Gramma loreto,size.maximum,9.1,,,cm,practice,,TL,,'],
  ])('never gives way: %s', (_, other) => {
    const { changed, replaced, conflicts } = imported(table(other), { preferMeasured: true });
    expect({ changed, replaced }).toEqual({ changed: [], replaced: [] });
    expect(conflicts).toHaveLength(1);
  });

  it('takes with it a source that nothing names any more', () => {
    const figures = JSON.stringify(gramma).split('froese-pauly-2018').length - 1;
    // The ratio and the weight name it, and the list.
    expect(figures).toBe(3);
    const lone = { ...gramma, size: { ...gramma.size, weight: { a: 0.01, b: 3, basis: 'recalled' } } } as SpeciesRecord;
    const { changed } = imported(table('Gramma loreto,size.totalPerStandard,1.23,,,1,measured,price-2022,,,'), {
      preferMeasured: true,
      with: [{ file: 'g', record: lone }],
    });
    expect(changed[0]?.record.sources).toEqual(gramma.sources.filter((source) => source !== 'froese-pauly-2018'));
  });
});

/** One mistake in one row each: code, and the line and column where it is told. */
const MISTAKES: readonly (readonly [what: string, text: string, code: string, line: number, column: number, fix: string])[] = [
  [
    'a slip in the name',
    table('Grama loreto,size.maximum,9,,,cm,recalled,,TL,,'),
    'unknown-species',
    2,
    1,
    'Did you mean "Gramma loreto"?',
  ],
  ['no name', table(',size.maximum,9,,,cm,recalled,,TL,,'), 'no-species', 2, 1, 'Fill one of the two.'],
  ['a slip in the field', table('Gramma loreto,size.maxmum,9,,,cm,recalled,,TL,,'), 'unknown-field', 2, 15, 'Did you mean "size.maximum"?'],
  ['a field of words', table('Gramma loreto,feeding.mode,9,,,cm,recalled,,,,'), 'unknown-field', 2, 15, 'Choose one of them'],
  ['no field', table('Gramma loreto,,9,,,cm,recalled,,TL,,'), 'unknown-field', 2, 15, 'Choose one of them'],
  ['a decimal comma', table('Gramma loreto,lifeCycle.longevity,"7,5",,,a,recalled,,,,'), 'not-a-number', 2, 35, 'Write 7.5.'],
  ['a unit in the number', table('Gramma loreto,lifeCycle.longevity,,4,7 a,a,recalled,,,,'), 'not-a-number', 2, 38, 'units have a column'],
  ['another unit', table('Gramma loreto,lifeCycle.longevity,5,,,years,recalled,,,,'), 'not-in-list', 2, 39, 'Choose one of these words.'],
  ['no unit', table('Gramma loreto,lifeCycle.longevity,5,,,,recalled,,,,'), 'missing-property', 2, 15, 'Add "unit".'],
  ['no basis', table('Gramma loreto,lifeCycle.longevity,5,,,a,,,,,'), 'missing-property', 2, 15, 'Add "basis".'],
  ['another basis', table('Gramma loreto,lifeCycle.longevity,5,,,a,hearsay,,,,'), 'not-in-list', 2, 41, 'Choose one of these words.'],
  ['measured without a source', table('Gramma loreto,lifeCycle.longevity,5,,,a,measured,,,,'), 'needs-also', 2, 15, 'Add "source"'],
  [
    'a source in practice',
    table('Gramma loreto,lifeCycle.longevity,5,,,a,practice,price-2022,,,'),
    'not-allowed-here',
    2,
    50,
    'Take it out',
  ],
  [
    'a slip in the source',
    table('Gramma loreto,lifeCycle.longevity,5,,,a,measured,price-2202,,,'),
    'unknown-source',
    2,
    50,
    'Did you mean "price-2022"?',
  ],
  ['no number', table('Gramma loreto,lifeCycle.longevity,,,,a,recalled,,,,'), 'no-number', 2, 15, 'Add the number.'],
  ['half a band', table('Gramma loreto,lifeCycle.longevity,5,4,,a,recalled,,,,'), 'needs-also', 2, 15, 'high'],
  ['a band upside down', table('Gramma loreto,lifeCycle.longevity,,7,4,a,recalled,,,,'), 'band-order', 2, 36, 'Put them in order.'],
  ['a number out of range', table('Gramma loreto,shape.defendedDepth,3,,,1,recalled,,,SL,'), 'too-large', 2, 35, ''],
  [
    'a column for another sort of figure',
    table('Gramma loreto,lifeCycle.longevity,5,,,a,recalled,,TL,,'),
    'unknown-property',
    2,
    51,
    'Take it out',
  ],
  [
    'a row given twice',
    table('Gramma loreto,lifeCycle.longevity,5,,,a,recalled,,,,', 'Gramma loreto,lifeCycle.longevity,6,,,a,recalled,,,,'),
    'duplicate-row',
    3,
    15,
    'Keep the better',
  ],
  ['a cell too many', table('Gramma loreto,lifeCycle.longevity,5,,,a,recalled,,,,one, two'), 'too-many-cells', 2, 15, 'Put quotes'],
  [
    'a slip in a column',
    'scientificName,feild,value,unit,basis\nGramma loreto,size.maximum,9,cm,recalled\n',
    'unknown-column',
    1,
    16,
    'Did you mean "field"?',
  ],
  [
    'a column twice',
    'scientificName,field,value,unit,basis,unit\nGramma loreto,size.maximum,9,cm,recalled,cm\n',
    'duplicate-column',
    1,
    39,
    'Keep one.',
  ],
  [
    'a column that is missing',
    'scientificName,field,value,unit\nGramma loreto,size.maximum,9,cm\n',
    'missing-column',
    1,
    1,
    'Add "basis".',
  ],
  ['a header alone', `${HEADER}\n`, 'no-rows', 1, 1, 'Add rows.'],
  ['nothing', '', 'no-rows', 1, 1, 'Fill it'],
  ['a quote that does not close', table('"Gramma loreto,size.maximum,9,,,cm,recalled,,TL,,'), 'bad-quotes', 2, 1, 'quote'],
  [
    'a name and an id of two species',
    'id,scientificName,field,value,unit,basis\nsalarias-fasciatus,Gramma loreto,lifeCycle.longevity,5,a,recalled\n',
    'name-mismatch',
    2,
    20,
    'Correct the one',
  ],
  [
    'a slip in the id',
    'id,field,value,unit,basis\ngramma-loretto,lifeCycle.longevity,5,a,recalled\n',
    'unknown-species',
    2,
    1,
    'Did you mean "gramma-loreto"?',
  ],
];

describe('a row that is wrong', () => {
  it.each(MISTAKES)('%s', (_, text, code, line, column, fix) => {
    const { changed, added, problems } = imported(text);
    const nothing = { changed: [], added: [] };
    expect({ changed, added }).toEqual(nothing);
    expect(problems.map((problem) => ({ code: problem.code, line: problem.line, column: problem.column, file: problem.file }))).toEqual([
      { code, line, column, file: 'm.csv' },
    ]);
    expect(problems[0]?.fix).toContain(fix);
    for (const words of [problems[0]?.found, problems[0]?.allowed]) expect(words).not.toMatch(/undefined|\[object|NaN|^\s*$/);
  });

  it('leaves its record as it is, and others are written', () => {
    const { changed, added, problems } = imported(
      table(
        'Gramma loreto,lifeCycle.longevity,5,,,a,recalled,,,,',
        'Gramma loreto,needs.tankAge,one,,,d,practice,,,,',
        'Salarias fasciatus,shape.defendedDepth,0.3,,,1,recalled,,,SL,',
      ),
    );
    expect(problems.map(({ code, line }) => `${line} ${code}`)).toEqual(['3 not-a-number']);
    expect(changed.map(({ record }) => record.id)).toEqual(['salarias-fasciatus']);
    expect(added.map(({ id }) => id)).toEqual(['salarias-fasciatus']);
  });

  it('a record that is wrong by itself is not written, and that is said once', () => {
    const broken = { ...gramma, form: 'fsh' } as unknown as SpeciesRecord;
    const { changed, problems } = imported(
      table('Gramma loreto,lifeCycle.longevity,5,,,a,recalled,,,,', 'Gramma loreto,needs.tankAge,90,,,d,practice,,,,'),
      { with: [{ file: 'g.species.json', record: broken }] },
    );
    expect(changed).toEqual([]);
    expect(problems.map(({ code, line }) => ({ code, line }))).toEqual([{ code: 'record-wrong', line: 2 }]);
    expect(problems[0]?.found).toBe('g.species.json has a mistake of its own, the first at form');
  });
});

describe('the whole sample', () => {
  it('taken apart into a table and put together again is the sample', () => {
    const columns = [
      'id',
      'field',
      'value',
      'low',
      'high',
      'unit',
      'interval',
      'lengthType',
      'per',
      'at',
      'basis',
      'source',
      'formula',
      'from',
      'searched',
      'note',
    ];
    const quoted = (value: unknown): string => (value === undefined ? '' : `"${String(value).replaceAll('"', '""')}"`);
    const rows: string[] = [];
    const bare = entries.map(({ file, record }) => {
      const copy = structuredClone(record) as unknown as Record<string, Record<string, unknown>>;
      for (const field of MEASUREMENT_FIELDS) {
        const figure = at(record, field) as Record<string, unknown> | undefined;
        const [section = '', key = ''] = field.split('.');
        if (figure === undefined || copy[section] === undefined) continue;
        delete copy[section][key];
        if (Object.keys(copy[section]).length === 0) delete copy[section];
        rows.push([record.id, field, ...columns.slice(2).map((name) => figure[name])].map(quoted).join(','));
      }
      const used = new Set([...JSON.stringify({ ...copy, sources: [] }).matchAll(/"source":"([^"]+)"/g)].map(([, source]) => source));
      return { file, record: { ...copy, sources: record.sources.filter((source) => used.has(source)) } as unknown as SpeciesRecord };
    });
    expect(rows.length).toBeGreaterThan(1000);
    const { changed, problems, conflicts, already } = imported([columns.join(','), ...rows].join('\n'), { with: bare });
    expect({ problems, conflicts, already }).toEqual({ problems: [], conflicts: [], already: 0 });
    expect(changed).toHaveLength(records.length);
    for (const { record } of changed) {
      const whole = records.find(({ id }) => id === record.id);
      expect(record).toEqual(whole);
      expect(JSON.stringify(record)).toBe(JSON.stringify(whole));
    }
  });
});

it('says a figure in a few words', () => {
  expect(figureWords({ value: 0.3253, unit: '1', per: 'SL', basis: 'measured', source: 'price-2022' })).toBe(
    '0.3253 of SL (measured, price-2022)',
  );
  expect(figureWords({ low: 6, high: 8, unit: 'cm', lengthType: 'TL', basis: 'recalled' })).toBe('6 to 8 cm TL (recalled)');
  expect(figureWords({ value: 5, low: 4, high: 7, unit: 'a', basis: 'practice' })).toBe('5 (4 to 7) a (practice)');
});

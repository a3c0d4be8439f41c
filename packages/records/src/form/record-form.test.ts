import { convert } from '@commensal/core';
import { type SpeciesRecord, speciesProblems } from '@commensal/schema';
import { records } from '@commensal/species-sample';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { textOf } from '../../../../tests/support/repository.js';
import { formProblems, isInOrder, jsonText, recordForm } from './record-form.js';
import { CANONICAL_UNITS } from './units.js';

const RUNS = Number(process.env.COMMENSAL_RUNS ?? 1000) / 5;

type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

const codesOf = (text: string): string[] => formProblems(text).map(({ code }) => code);
const repaired = (text: string): string => recordForm(text, { fix: true }).text;

const record = (): SpeciesRecord => structuredClone(records.find(({ id }) => id === 'gramma-loreto')) as SpeciesRecord;

/** A record with what is laid over its greatest length. */
const withMaximum = (maximum: object): string => {
  const base = record();
  return jsonText({ ...base, size: { ...base.size, maximum: { ...maximum, basis: 'recalled' } } });
};

/** A quotient of whole numbers, which nothing can round. */
interface Ratio {
  readonly over: bigint;
  readonly under: bigint;
}

function ratioOf(decimal: string): Ratio {
  const [, mantissa = '', power = '0'] = /^([^e]*)(?:e(.*))?$/i.exec(decimal) ?? [];
  const [whole = '', fraction = ''] = mantissa.split('.');
  const exponent = Number(power) - fraction.length;
  const digits = BigInt(whole + fraction);
  return exponent < 0 ? { over: digits, under: 10n ** BigInt(-exponent) } : { over: digits * 10n ** BigInt(exponent), under: 1n };
}

/** What one of a unit is in the canonical one: the definitions of the units, told by Ratios. */
const QUANTITY: Readonly<Record<string, (number: Ratio) => Ratio>> = {
  mm: ({ over, under }) => ({ over, under: under * 10n }),
  '[in_i]': ({ over, under }) => ({ over: over * 127n, under: under * 50n }),
  '[gal_us]': ({ over, under }) => ({ over: over * 473_176_473n, under: under * 125_000_000n }),
  '[degF]': ({ over, under }) => ({ over: (over - 32n * under) * 5n, under: under * 9n }),
};

const distance = (one: Ratio, other: Ratio): Ratio => {
  const difference = one.over * other.under - other.over * one.under;
  return { over: difference < 0n ? -difference : difference, under: one.under * other.under };
};
const atMost = (one: Ratio, other: Ratio): boolean => one.over * other.under <= other.over * one.under;

/** The doubles next to a number. */
function neighbours(number: number): number[] {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, number);
  const bits = view.getBigInt64(0);
  return [bits - 1n, bits + 1n].map((near) => {
    view.setBigInt64(0, near);
    return view.getFloat64(0);
  });
}

/** Every digit of a double: a sum of powers of two is a decimal that ends. */
function exactly(number: number): Ratio {
  let over = number;
  let under = 1n;
  while (!Number.isInteger(over)) {
    over *= 2;
    under *= 2n;
  }
  return { over: BigInt(over), under };
}

/** A text of a value with the keys, the white space, the ends of lines and the spelling that `draw` decides. */
function scrambled(value: Json, draw: (most: number) => number, inExtensions = false): string {
  const space = (): string => ['', ' ', '\n', '\r\n', '\t', '  \n    '][draw(5)] ?? '';
  const spell = (text: string): string =>
    inExtensions || draw(9) > 0 ? text : text.replace(/[a-z]/, (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, '0')}`);
  if (Array.isArray(value)) return `[${space()}${value.map((item) => scrambled(item, draw, inExtensions) + space()).join(`,${space()}`)}]`;
  if (typeof value === 'object' && value !== null) {
    const entries = Object.entries(value);
    if (!inExtensions) for (let at = entries.length - 1; at > 0; at -= 1) entries.push(...entries.splice(draw(at), 1));
    const members = entries.map(
      ([key, member]) =>
        `${space()}${spell(JSON.stringify(key))}${space()}:${space()}${scrambled(member, draw, inExtensions || key === 'extensions')}${space()}`,
    );
    return `{${members.join(',')}${space()}}`;
  }
  if (typeof value === 'string') return spell(JSON.stringify(value));
  const usual = JSON.stringify(value);
  if (inExtensions || typeof value !== 'number' || usual.includes('e') || draw(4) > 0) return usual;
  return usual.includes('.') ? `${usual}0` : ([`${usual}.0`, `${usual}e0`, value === 0 ? '-0' : `${usual}00E-2`][draw(2)] ?? usual);
}

const drawn = (seed: readonly number[]): ((most: number) => number) => {
  let at = 0;
  return (most) => {
    at += 1;
    return ((seed[at % seed.length] ?? 0) + at) % (most + 1);
  };
};

const anyRecord = fc.constantFrom(...records);
const anySeed = fc.array(fc.nat(1000), { minLength: 7, maxLength: 40 });
const anyExtensions = fc.option(fc.dictionary(fc.constantFrom('vendor', 'club', 'shop-2'), fc.jsonValue({ maxDepth: 2 })), {
  nil: undefined,
});

describe('the form of a record', () => {
  it('is that of every record of the sample', () => {
    expect(records.length).toBeGreaterThan(0);
    for (const one of records) {
      const file = `packages/species-sample/records/${one.taxon.family.toLowerCase()}/${one.id}.species.json`;
      expect(formProblems(textOf(file)), one.id).toEqual([]);
    }
  });

  it.each<[string, (text: string) => string, string, number, string]>([
    ['a byte order mark', (text) => `\uFEFF${text}`, 'spacing', 1, 'the file starts with a byte order mark'],
    ['CR LF', (text) => text.replaceAll('\n', '\r\n'), 'spacing', 1, 'the line ends in a carriage return'],
    ['no end of the last line', (text) => text.trimEnd(), 'spacing', -1, 'the last line has no end'],
    ['an empty line at the end', (text) => `${text}\n`, 'spacing', 0, 'more white space follows the end of the record'],
    ['four spaces', (text) => jsonTextOf(text, 4), 'spacing', 2, 'the line is indented by 4 spaces'],
    ['tabs', (text) => jsonTextOf(text, '\t'), 'spacing', 2, 'the line is indented with tabs'],
    ['one line', (text) => JSON.stringify(JSON.parse(text)), 'spacing', 1, 'the line is “{"$schema":"https://commensal.example/sc...”'],
    ['a blank behind', (text) => text.replace('",\n', '", \n'), 'spacing', 2, 'the line ends in white space'],
    ['an empty line', (text) => text.replace('",\n', '",\n\n'), 'spacing', 3, 'the line is empty'],
    ['no blank behind the colon', (text) => text.replace('"id": ', '"id":'), 'spacing', 3, 'the line is “"id":"gramma-loreto",”'],
    [
      'a list in one line',
      (text) => text.replace(/"sources": \[[^\]]*\]/, '"sources": ["randall-1967", "x"]'),
      'spacing',
      0,
      'the line is “"sources": ["randall-1967", "x"]”',
    ],
  ])('%s is one problem, at the first place', (_, spoil, code, line, says) => {
    const text = spoil(jsonText(record()));
    const problems = formProblems(text).filter((problem) => problem.code === 'spacing');
    expect(problems.map(({ code: each, found }) => [each, found])).toEqual([[code, says]]);
    const lines = text.split('\n').length;
    if (line !== 0) expect(problems[0]?.line).toBe(line < 0 ? lines : line);
  });

  it('names the member that stands too early, and the order', () => {
    const { id, $schema, ...rest } = record();
    const [problem, ...more] = formProblems(jsonText({ id, $schema, ...rest }));
    expect(more).toEqual([]);
    expect(problem).toMatchObject({
      code: 'key-order',
      pointer: '/id',
      line: 2,
      column: 3,
      found: 'in the document, "id" stands before "$schema"',
    });
    expect(problem?.allowed).toMatch(/^the order is \$schema, id, addedIn, taxon, /);
  });

  it('knows the order within lists', () => {
    const base = record();
    const text = jsonText({ ...base, vernacularNames: [{ language: 'en', name: 'royal gramma' }] });
    expect(formProblems(text).map(({ code, pointer }) => [code, pointer])).toEqual([['key-order', '/vernacularNames/0/language']]);
  });

  it('sorts sources, and drops one that stands there twice', () => {
    const text = jsonText({ ...record(), sources: ['b', 'a', 'b'] });
    expect(codesOf(text)).toEqual(['sources-order']);
    expect(JSON.parse(repaired(text)).sources).toEqual(['a', 'b']);
    expect(formProblems(jsonText({ ...record(), sources: ['a', 'b', 'b'] }))[0]).toMatchObject({
      pointer: '/sources/2',
      found: 'sources[2] is "b" once more',
    });
  });

  it('leaves a number alone that has more digits than JavaScript holds', () => {
    const text = jsonText(record()).replace(/("maximum": \{\n\s*"value": )[\d.]+/, '$18.00000000000000000001');
    expect(text).toContain('8.00000000000000000001');
    expect(codesOf(text)).toEqual([]);
    expect(repaired(text)).toBe(text);
  });

  it('spells numbers and texts as JSON.stringify does, and tells the first', () => {
    const text = jsonText(record()).replace('"royal', '"\\u0072oyal').replace('"cm"', '"c\\u006d"');
    const allowed = 'it is written "royal gramma"';
    expect(formProblems(text)).toMatchObject([{ code: 'spelling', pointer: '/vernacularNames/1/name', allowed }]);
    expect(repaired(text)).toBe(jsonText(record()));
  });

  it('needs JSON', () => {
    expect(() => recordForm('{', { fix: true })).toThrow(SyntaxError);
  });
});

const jsonTextOf = (text: string, space: number | string): string => `${JSON.stringify(JSON.parse(text), null, space)}\n`;

describe('units', () => {
  it.each([
    ['mm', 25.4, 2.54, 'cm'],
    ['mm', 81, 8.1, 'cm'],
    ['mm', 0.3, 0.03, 'cm'],
    ['[in_i]', 1, 2.54, 'cm'],
    ['[in_i]', 3.15, 8.001, 'cm'],
    ['[gal_us]', 1, 3.785411784, 'L'],
    ['[gal_us]', 55, 208.19764812, 'L'],
    ['[degF]', 77, 25, 'Cel'],
    ['[degF]', 32, 0, 'Cel'],
    // One step of a double off either way would be another number; the exact one has no end.
    ['[degF]', 78, 25.555555555555557, 'Cel'],
    ['[degF]', 30, -1.1111111111111112, 'Cel'],
  ])('%s: %s is %s %s', (unit, before, after, canonical) => {
    const text = repaired(withMaximum({ value: before, unit }));
    expect(JSON.parse(text).size.maximum).toEqual({ value: after, unit: canonical, basis: 'recalled' });
    expect(text).toContain(`"value": ${after},`);
  });

  it('takes the band with the value', () => {
    const text = withMaximum({ value: 80, low: 70.5, high: 92, unit: 'mm', interval: 'range' });
    expect(formProblems(text)).toMatchObject([
      { code: 'unit-not-canonical', pointer: '/size/maximum/unit', allowed: 'records are kept in "cm": 80 mm is 8 cm' },
    ]);
    expect(JSON.parse(repaired(text)).size.maximum).toEqual({
      value: 8,
      low: 7.05,
      high: 9.2,
      unit: 'cm',
      interval: 'range',
      basis: 'recalled',
    });
  });

  it('are all canonical or known to be turned into one that is', () => {
    const schema: { $defs: Record<string, { properties?: { unit?: { enum?: string[] } } }> } = JSON.parse(
      textOf('packages/schema/schemas/1.0/species.schema.json'),
    );
    const lists = Object.values(schema.$defs).flatMap(({ properties }) => properties?.unit?.enum ?? []);
    const others = new Set(lists.filter((unit) => !CANONICAL_UNITS.has(unit)));
    expect(lists.length).toBeGreaterThan(0);
    // A span of time is told in years of a life and in days of a tank.
    expect([...others].sort()).toEqual(['/a', '/d', '1', 'Cel', 'L', '[pH]', 'a', 'cm', 'd']);
  });

  it('never change the quantity: no number is nearer to it than the one that is written', () => {
    const decimal = fc
      .tuple(fc.nat(99_999_999), fc.integer({ min: 0, max: 6 }))
      .map(([digits, places]) => (digits / 10 ** places).toFixed(places));
    fc.assert(
      fc.property(fc.constantFrom(...CANONICAL_UNITS.keys()), decimal, (unit, written) => {
        const text = withMaximum({ value: 111.25, unit }).replace('111.25', written);
        const maximum = JSON.parse(repaired(text)).size.maximum;
        const before = QUANTITY[unit]?.(ratioOf(written)) as Ratio;
        const off = distance(exactly(maximum.value), before);
        for (const near of neighbours(maximum.value)) {
          if (maximum.value !== 0) expect(atMost(off, distance(exactly(near), before))).toBe(true);
        }
        // A decimal of up to 15 digits is told from every other, so it has to be the very same.
        const after = String(maximum.value);
        const digits = String((before.over * 10n ** 20n) / before.under).replace(/0+$/, '');
        if (unit !== '[degF]' && digits.length <= 15) expect(distance(ratioOf(after), before).over).toBe(0n);
        // What the rules read: each of the two conversions rounds some times, each time by 2 to the -53 of the number at most.
        const read = convert(Number(written), unit, maximum.unit);
        expect(Math.abs(read - maximum.value)).toBeLessThanOrEqual(Math.max(Math.abs(read), 32) * 6 * 2 ** -53);
      }),
      { numRuns: RUNS * 5 },
    );
  });

  it('in extensions are theirs', () => {
    const text = jsonText({ ...record(), extensions: { vendor: { value: 25.4, unit: 'mm', a: 1 } } });
    expect(formProblems(text)).toEqual([]);
  });
});

describe('repairing', () => {
  /** A record in order, and its text with everything out of order. */
  const spoilt = fc.tuple(anyRecord, anySeed, anyExtensions, fc.boolean()).map(([base, seed, extensions, marked]) => {
    const right: Record<string, Json> = { ...(base as unknown as Record<string, Json>) };
    if (extensions !== undefined) right.extensions = JSON.parse(JSON.stringify(extensions)) as Json;
    const draw = drawn(seed);
    const sources = [...(base.sources ?? [])];
    const reversed = draw(1) === 0 ? sources.reverse() : sources;
    const text = scrambled({ ...right, sources: reversed }, draw);
    return { right, text: `${marked ? '\uFEFF' : ''}${text}` };
  });

  it('gives back the record, the whole record and nothing but the record', () => {
    fc.assert(
      fc.property(spoilt, ({ right, text }) => {
        expect(repaired(text)).toBe(jsonText(right));
      }),
      { numRuns: RUNS },
    );
  });

  it('is done when it is done once, and leaves nothing to report', () => {
    fc.assert(
      fc.property(spoilt, ({ text }) => {
        const once = repaired(text);
        expect(formProblems(once)).toEqual([]);
        expect(repaired(once)).toBe(once);
        expect(isInOrder(JSON.parse(once))).toBe(true);
      }),
      { numRuns: RUNS },
    );
  });

  it('reports what it repairs, and reporting repairs nothing', () => {
    fc.assert(
      fc.property(spoilt, ({ text }) => {
        const report = recordForm(text, { fix: false });
        const repair = recordForm(text, { fix: true });
        expect(report.problems).toEqual(repair.problems);
        expect(report.text).toBe(text);
        expect(report.problems.length > 0).toBe(repair.text !== text);
        const places = report.problems.map(({ line = 0, column = 0 }) => line * 1e6 + column);
        expect(places).toEqual([...places].sort((one, other) => one - other));
        expect(report.problems.filter(({ code }) => code === 'spacing').length).toBeLessThan(2);
      }),
      { numRuns: RUNS },
    );
  });

  it('keeps what others wrote, order and spelling and all', () => {
    const theirs = '{ "vendor": { "b": 1.50, "2": "\\u00e9", "1": 12345678901234567890 } }';
    const text = jsonText({ ...record(), extensions: 0 }).replace('"extensions": 0', `"extensions": ${theirs}`);
    expect(codesOf(text)).toEqual(['spacing']);
    expect(repaired(text)).toContain(
      '"extensions": {\n    "vendor": {\n      "b": 1.50,\n      "2": "\\u00e9",\n      "1": 12345678901234567890\n    }\n  }\n}\n',
    );
  });

  it('does not make a right record wrong', () => {
    const others = records.map((one) => jsonText(one).replace(/"unit": "cm"/g, '"unit": "mm"'));
    expect(others.some((text) => speciesProblems(JSON.parse(text)).length === 0)).toBe(true);
    for (const text of others) {
      if (speciesProblems(JSON.parse(text)).length === 0) expect(speciesProblems(JSON.parse(repaired(text)))).toEqual([]);
    }
  });
});

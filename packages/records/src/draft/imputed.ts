import { type Library, standIn, type StandInFigure } from '@commensal/core';
import type { SpeciesRecord } from '@commensal/schema';
import { entriesAt } from '../field-at.js';

/** A figure of relatives, as a record holds it. */
export interface ImputedFigure<Unit extends string> {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly unit: Unit;
  readonly per?: 'SL' | 'TL';
  readonly basis: 'imputed';
  readonly source: string;
  readonly from: 'genus' | 'family';
  readonly note: string;
}

/** The genus before the family: its error is the smaller. */
const RANKS = ['genus', 'family'] as const;

/** Rates a year that any fish has, and records may hold: the band of a stand-in does not reach beyond. */
const RATES = { least: 0.03, most: 16 };

/** Ratios are given to four digits, as the tables have them. */
const digits = (value: number): number => Number(value.toPrecision(4));

/**
 * The figure of the genus, else of the family, with the error of standing in for one of its members as its band; undefined where the
 * tables hold none that has a source.
 */
export function imputedFigure<Unit extends string>(
  { genus, family }: Pick<SpeciesRecord['taxon'], 'genus' | 'family'>,
  { standIns }: Library,
  figure: StandInFigure,
  unit: Unit,
): ImputedFigure<Unit> | undefined {
  for (const from of RANKS) {
    const name = from === 'genus' ? genus : family;
    const quantity = standIns?.groups.find((group) => group.rank === from && group.name === name)?.[figure];
    const band = standIn(standIns, from, name, figure);
    if (quantity?.source === undefined || band === undefined) continue;
    const error = standIns?.errors.find((entry) => entry.figure === figure && entry.rank === from);
    const told = [quantity.formula === undefined ? name : `${quantity.formula} of ${name}`, quantity.note].filter(
      (part) => part !== undefined,
    );
    const per = 'per' in quantity ? quantity.per : undefined;
    return {
      value: digits(band.centre),
      low: digits(figure === 'growthRate' ? Math.max(RATES.least, band.low) : band.low),
      high: digits(figure === 'growthRate' ? Math.min(RATES.most, band.high) : band.high),
      unit,
      ...(per === undefined ? {} : { per }),
      basis: 'imputed',
      source: quantity.source,
      from,
      note: `Stands in: ${told.join('. ').replace(/\.$/, '')}. ${bandNote(from, error?.basis)}`,
    };
  }
  return undefined;
}

const bandNote = (from: 'genus' | 'family', basis: string | undefined): string =>
  basis === 'derived' || basis === 'measured'
    ? `Low and high are the error of letting a ${from} stand in for one of its species.`
    : `Low and high are a guess at the error of letting a ${from} stand in for one of its species.`;

export interface ImputedWeight {
  readonly a: number;
  readonly b: number;
  readonly lengthType: 'TL' | 'SL' | 'FL' | 'DM' | 'SH';
  readonly basis: 'imputed';
  readonly source: string;
  readonly from: 'genus' | 'family';
  readonly note: string;
}

/**
 * The weight that records of the genus, else of the family, already have from that genus or family; undefined where none has. Of
 * several the one that most records have.
 */
export function imputedWeight(taxon: Pick<SpeciesRecord['taxon'], 'genus' | 'family'>, { records }: Library): ImputedWeight | undefined {
  for (const from of RANKS) {
    const kin = [...records.values()].filter((record) => record.taxon[from] === taxon[from]);
    const times = new Map<string, { weight: Omit<ImputedWeight, 'note'>; records: number }>();
    for (const record of kin) {
      const weight = record.size?.weight;
      if (weight === undefined || weight.basis !== 'imputed' || weight.from !== from || weight.source === undefined) continue;
      const { a, b, lengthType = 'TL', source } = weight;
      const key = JSON.stringify([a, b, lengthType, source]);
      const entry = times.get(key) ?? { weight: { a, b, lengthType, basis: 'imputed', source, from }, records: 0 };
      times.set(key, { ...entry, records: entry.records + 1 });
    }
    const [most] = [...times].sort(([one, { records: ones }], [other, { records: others }]) => others - ones || (one < other ? -1 : 1));
    if (most === undefined) continue;
    const [, { weight, records: users }] = most;
    const kept = users === 1 ? 'one other record has it' : `${users} other records have it`;
    return { ...weight, note: `Stands in: the ${from} ${taxon[from]}, as ${kept}.` };
  }
  return undefined;
}

/** Whether a record has the field already. */
const lacks = (record: SpeciesRecord, field: string): boolean => entriesAt(record, field).length === 0;

/**
 * The figures of genus and family that a fish lacks: total over standard length, weight, growth rate, body depth and width, lower jaw.
 * Nothing for other animals, whose relatives are in no table. Behaviour is never imputed: no table grounds it. Nor is the gape, which
 * the jaw gives. What the record has stays.
 */
export function withImputed(record: SpeciesRecord, library: Library): SpeciesRecord {
  if (record.form !== 'fish') return record;
  const of = <Unit extends string>(field: string, figure: StandInFigure, unit: Unit): ImputedFigure<Unit> | undefined =>
    lacks(record, field) ? imputedFigure(record.taxon, library, figure, unit) : undefined;
  const ratio = of('size.totalPerStandard', 'totalPerStandard', '1');
  const weight = lacks(record, 'size.weight') ? imputedWeight(record.taxon, library) : undefined;
  const rate = of('growth.rate', 'growthRate', '/a');
  const depth = of('shape.bodyDepth', 'bodyDepth', '1');
  const width = of('shape.bodyWidth', 'bodyWidth', '1');
  const jaw = of('shape.lowerJaw', 'lowerJaw', '1');
  const size = inOrder(SIZE, { ...record.size, ...told('totalPerStandard', ratio), ...told('weight', weight) });
  const growth = inOrder(GROWTH, { ...record.growth, ...told('rate', rate) });
  const shape = inOrder(SHAPE, { ...record.shape, ...told('bodyDepth', depth), ...told('bodyWidth', width), ...told('lowerJaw', jaw) });
  const { size: _size, growth: _growth, shape: _shape, sources, ...rest } = record;
  const found = [ratio, weight, rate, depth, width, jaw].flatMap((figure) => (figure === undefined ? [] : [figure.source]));
  return inOrder(RECORD, {
    ...rest,
    ...(Object.keys(size).length === 0 ? {} : { size }),
    ...(Object.keys(growth).length === 0 ? {} : { growth }),
    ...(Object.keys(shape).length === 0 ? {} : { shape }),
    sources: [...new Set([...sources, ...found])].sort(),
  });
}

const told = <Name extends string, Figure>(name: Name, figure: Figure | undefined): { readonly [key in Name]?: Figure } =>
  (figure === undefined ? {} : { [name]: figure }) as { readonly [key in Name]?: Figure };

/** Groups and their figures in the order of the schema; a test holds it against the schema. */
const SIZE = ['maximum', 'captiveAdult', 'entry', 'totalPerStandard', 'totalPerFork', 'weight'];
const GROWTH = ['asymptoticLength', 'rate'];
const SHAPE = ['bodyDepth', 'bodyWidth', 'lowerJaw', 'gapeWidth', 'swallowTrial', 'defendedDepth', 'longSnout', 'gapeClass'];
const RECORD = [
  ...['$schema', 'id', 'addedIn', 'deprecatedIn', 'replacedBy', 'taxon', 'synonyms', 'vernacularNames', 'form', 'kinGroup'],
  ...['size', 'growth', 'shape', 'feeding', 'conduct', 'needs', 'introduction', 'hazards', 'conservation', 'lifeCycle', 'sources'],
];

/** The same object with the names told in their order, and whatever else it has behind. */
function inOrder<Part extends object>(names: readonly string[], part: Part): Part {
  const all = [...names, ...Object.keys(part).filter((name) => !names.includes(name))];
  return Object.fromEntries(all.flatMap((name) => (name in part ? [[name, part[name as keyof Part]]] : []))) as Part;
}

import type { Situation, SpeciesRecord } from '@commensal/schema';
import type { Band } from '../../quantity/band.js';
import { kindOf } from '../../stock/kind-of.js';
import { type Library, recordOf } from '../../stock/library.js';
import { stockOf } from '../../stock/stock-of.js';
import type { StockKind } from '../../stock/stock.js';
import { columnName } from './column.js';

/** A figure that varies within the band that a record or a reading gives it. */
export interface UncertainFigure {
  readonly name: string;
  readonly at: string;
  readonly unit: string;
  readonly description: string;
  readonly band: Band;
  /** What the figure says besides when it is written as a whole. */
  readonly whole: Readonly<Record<string, unknown>>;
  /** The asymptotic length that a growth rate is drawn together with: its name and band. */
  readonly jointlyWith?: { readonly name: string; readonly band: Band };
}

/**
 * The figures of a situation that have a band, of the sorts asked for, in a fixed order: species by id, then animals as the document
 * has them. `others` are species that may come in by a variable. A figure without width, and one that is set by a variable of its own
 * (`taken`), does not vary.
 */
export function uncertainFigures(
  situation: Situation,
  library: Library,
  sorts: readonly ('growth' | 'shape' | 'lengths')[],
  others: readonly string[],
  taken: ReadonlySet<string>,
): UncertainFigure[] {
  const figures = [
    ...kindsIn(situation, library, others).flatMap((kind) => [
      ...(sorts.includes('growth') ? growthFigures(kind) : []),
      ...(sorts.includes('shape') ? shapeFigures(kind) : []),
    ]),
    ...(sorts.includes('lengths') ? lengthFigures(situation, library) : []),
  ];
  return figures.filter(({ at, band }) => band.low < band.high && !taken.has(at));
}

function kindsIn(situation: Situation, library: Library, others: readonly string[]): StockKind[] {
  const named = [
    ...(situation.residents ?? []).map(({ species }) => species),
    ...(situation.introductions ?? []).flatMap(({ animals }) => animals.map(({ species }) => species)),
    ...(situation.wishes ?? []).map(({ species }) => species),
    ...others,
  ];
  const records = new Map<string, SpeciesRecord>();
  for (const id of named) {
    const record = recordOf(library, id);
    if (record !== undefined) records.set(record.id, record);
  }
  return [...records.keys()].sort().map((id) => kindOf(records.get(id) as SpeciesRecord, library.standIns));
}

function growthFigures({ id, asymptoticCm, ratePerYear }: StockKind): UncertainFigure[] {
  if (asymptoticCm === undefined || ratePerYear === undefined) return [];
  const asymptote = {
    name: `linf_${columnName(id)}`,
    at: `/species/${id}/growth/asymptoticLength`,
    unit: 'cm',
    description: `Asymptotic total length of ${id}.`,
    band: asymptoticCm,
    whole: { lengthType: 'TL', basis: asymptoticCm.basis },
  };
  const rate = {
    name: `rate_${columnName(id)}`,
    at: `/species/${id}/growth/rate`,
    unit: '/a',
    description: `Growth rate K of ${id}, drawn jointly with its asymptotic length.`,
    band: ratePerYear,
    whole: { basis: ratePerYear.basis },
    jointlyWith: { name: asymptote.name, band: asymptoticCm },
  };
  return [asymptote, rate];
}

/** The mouth as the width of the open gape, whatever it was worked out from; the body as its depth at rest or with spines raised. */
function shapeFigures({ id, gapeClass, swallow, depthPerTotal, defendedPerTotal }: StockKind): UncertainFigure[] {
  const figure = (name: string, field: string, per: 'SL' | 'TL', description: string, band: Band | undefined): UncertainFigure[] =>
    band === undefined
      ? []
      : [
          {
            name: `${name}_${columnName(id)}`,
            at: `/species/${id}/shape/${field}`,
            unit: '1',
            description: `${description} of ${id}.`,
            band,
            whole: { per, basis: band.basis },
          },
        ];
  const mouth = gapeClass === 'engulfs' ? swallow : undefined;
  return [
    ...figure(
      'mouth',
      mouth?.rung === 'swallowTrial' ? 'swallowTrial' : 'gapeWidth',
      'SL',
      'Greatest body depth that passes over standard length',
      mouth,
    ),
    ...figure('depth', 'bodyDepth', 'TL', 'Body depth over total length', depthPerTotal),
    ...figure('defended', 'defendedDepth', 'TL', 'Body depth over total length with spines raised or blown up', defendedPerTotal),
  ];
}

/** Lengths of residents and newcomers that are told as a range or, of newcomers, not at all. */
function lengthFigures(situation: Situation, library: Library): UncertainFigure[] {
  const { stock } = stockOf({ ...situation, events: [], wishes: [] }, library);
  const bands = new Map(stock.animals.map(({ id, lengthCm }) => [id, lengthCm]));
  const figure = (id: string, at: string): UncertainFigure[] => {
    const band = bands.get(id);
    if (band === undefined) return [];
    const description = `Total length of ${id} on the day it was or is measured.`;
    return [{ name: `length_${columnName(id)}`, at, unit: 'cm', description, band, whole: { lengthType: 'TL' } }];
  };
  return [
    ...(situation.residents ?? []).flatMap(({ id }, index) => figure(id, `/situation/residents/${index}/length`)),
    ...(situation.introductions ?? []).flatMap(({ animals }, day) =>
      animals.flatMap(({ id, species }, index) => figure(id ?? species, `/situation/introductions/${day}/animals/${index}/length`)),
    ),
  ];
}

import { convert, type Quantity, weight } from '@commensal/core';
import type { Length, LengthWeight, ShapeRatio, SpeciesRecord, StandIns } from '@commensal/schema';

/** What a quantity of a record says, in one unit; a bare value is its own low and high. */
export interface Figure {
  readonly low: number;
  readonly centre: number;
  readonly high: number;
}

/**
 * A quantity in the unit wanted. Undefined where there is none, or where its band is out of order: that is told elsewhere.
 *
 * @example
 * figureOf({ low: 70, high: 90, unit: 'mm' }, 'cm'); // { low: 7, centre: 8, high: 9 }
 */
export function figureOf(quantity: Quantity | undefined, unit: string): Figure | undefined {
  if (quantity === undefined) return undefined;
  const low = quantity.low ?? quantity.value;
  const high = quantity.high ?? quantity.value;
  if (low === undefined || high === undefined) return undefined;
  const centre = quantity.value ?? (low + high) / 2;
  if (low > centre || centre > high) return undefined;
  const read = (number: number): number => convert(number, quantity.unit, unit);
  return { low: read(low), centre: read(centre), high: read(high) };
}

/** Figures that the tables of stand-ins hold for genera and families. */
const RELATIVES_FIGURES = ['bodyDepth', 'bodyWidth', 'lowerJaw', 'totalPerStandard', 'growthRate'] as const;

/** One of them. */
export type RelativesFigure = (typeof RELATIVES_FIGURES)[number];

/** A figure of the genus or, where the tables have none, of the family. */
export interface OfRelatives {
  readonly rank: 'genus' | 'family';
  readonly name: string;
  readonly value: number;
}

type Centres = ReadonlyMap<string, number>;

/** The figures of tables that were read before: every record asks for some twenty of them. */
const centresRead = new WeakMap<StandIns, Centres>();

const keyOf = (rank: string, name: string, figure: string): string => `${rank} ${name} ${figure}`;

function centresOf(standIns: StandIns): Centres {
  const before = centresRead.get(standIns);
  if (before !== undefined) return before;
  const centres = new Map<string, number>();
  for (const group of standIns.groups) {
    for (const figure of RELATIVES_FIGURES) {
      const quantity = group[figure];
      const centre = figureOf(quantity, quantity?.unit ?? '1')?.centre;
      if (centre !== undefined) centres.set(keyOf(group.rank, group.name, figure), centre);
    }
  }
  centresRead.set(standIns, centres);
  return centres;
}

/** The figure of one group, as the tables give it. */
export function figureOfGroup(standIns: StandIns, rank: 'genus' | 'family', name: string, figure: RelativesFigure): number | undefined {
  return centresOf(standIns).get(keyOf(rank, name, figure));
}

/** What its relatives measure: those of its genus before those of its family. */
export function ofRelatives({ taxon }: SpeciesRecord, standIns: StandIns, figure: RelativesFigure): OfRelatives | undefined {
  for (const rank of ['genus', 'family'] as const) {
    const value = figureOfGroup(standIns, rank, taxon[rank], figure);
    if (value !== undefined) return { rank, name: taxon[rank], value };
  }
  return undefined;
}

/** Total over standard length: its own, or that of its relatives. Animals without a tail fin have one length only. */
export function totalPerStandard(record: SpeciesRecord, standIns: StandIns): number | undefined {
  if (record.form !== 'fish') return 1;
  return figureOf(record.size?.totalPerStandard, '1')?.centre ?? ofRelatives(record, standIns, 'totalPerStandard')?.value;
}

type LengthType = Length['lengthType'] | ShapeRatio['per'];

/** Total length over a length of this type; undefined where it is not known. */
export function totalPer(type: LengthType, record: SpeciesRecord, standIns: StandIns): number | undefined {
  if (type === 'SL') return totalPerStandard(record, standIns);
  if (type === 'FL') return figureOf(record.size?.totalPerFork, '1')?.centre;
  return 1;
}

/**
 * A length of the body as total length in cm; diameters and shell lengths stay what they are.
 *
 * @example
 * totalCm({ value: 10, unit: 'cm', lengthType: 'TL', basis: 'measured' }, record, standIns)?.centre // 10
 */
export function totalCm(length: Length | undefined, record: SpeciesRecord, standIns: StandIns): Figure | undefined {
  const figure = figureOf(length, 'cm');
  const factor = totalPer(length?.lengthType, record, standIns);
  if (figure === undefined || factor === undefined) return undefined;
  return { low: figure.low * factor, centre: figure.centre * factor, high: figure.high * factor };
}

/** A measure of the body over standard length; undefined where it cannot be converted. */
export function perStandard(ratio: ShapeRatio | undefined, record: SpeciesRecord, standIns: StandIns): number | undefined {
  const figure = figureOf(ratio, '1');
  if (ratio === undefined || figure === undefined) return undefined;
  const per = ratio.per ?? 'SL';
  if (per === 'SL' || record.form !== 'fish') return figure.centre;
  const standard = totalPerStandard(record, standIns);
  const other = totalPer(per, record, standIns);
  return standard === undefined || other === undefined ? undefined : (figure.centre * standard) / other;
}

/** Length at which weights are compared; where the shapes of one animal at different sizes still are alike. */
export const COMPARED_AT_CM = 10;

/** Grams at 10 cm total length, by a and b for lengths of their type; undefined where it cannot be converted. */
export function gramsAtTen({ a, b, lengthType }: LengthWeight, record: SpeciesRecord, standIns: StandIns): number | undefined {
  const factor = totalPer(lengthType, record, standIns);
  return factor === undefined ? undefined : weight(COMPARED_AT_CM / factor, a, b);
}

/** Digits that are shown of a figure that was computed or converted. */
const DIGITS = 3;

/**
 * A number as it stands in a sentence.
 *
 * @example
 * shown(0.43881); // '0.439'
 */
export const shown = (number: number): string => String(Number(number.toPrecision(DIGITS)));

/** How many times as large the greater of two is. */
export const fold = (one: number, other: number): number => Math.max(one / other, other / one);

import { ANY_GROWTH_RATE, type Band, bandOf, type Library, standIn } from '@commensal/core';
import type { Basis, Level, SpeciesRecord } from '@commensal/schema';
import { entriesAt, fieldAt, type Standing, standingOf } from '../field-at.js';
import { likeKin, nearestKin } from './like-kin.js';
import { type Judgement, LEVELS_DOWN, type Look, lookAt } from './meetings.js';

/** How much hangs on a field that a record lacks, or of which it is not sure. */
export interface Worth {
  readonly field: string;
  readonly standing: Standing;
  /** `missing`: rules cannot tell without it. `unsure`: findings come out otherwise within its band. */
  readonly why: 'missing' | 'unsure';
  /** Findings that hang on it, by the level they have or would have. */
  readonly findings: Readonly<Record<Level, number>>;
  /** How many species it was put beside with a finding that hangs on it. */
  readonly mates: number;
  /** Whether something about the species alone hangs on it. */
  readonly alone: boolean;
  /** The rules that ask, each with how many findings, most first. */
  readonly rules: readonly { readonly rule: string; readonly findings: number }[];
  /** What the order goes by. */
  readonly weight: number;
}

/** An error weighs as much as three warnings, and a warning as much as three notes (our choice). */
const WEIGHT: Readonly<Record<Level, number>> = { error: 9, warning: 3, note: 1 };

/** Figures whose band is an uncertainty. Ranges that a species wants, and the sizes that are sold, are no doubts. */
const UNCERTAIN: readonly { readonly field: string; readonly unit: string }[] = [
  { field: 'size.maximum', unit: 'cm' },
  { field: 'size.captiveAdult', unit: 'cm' },
  { field: 'size.totalPerStandard', unit: '1' },
  { field: 'growth.asymptoticLength', unit: 'cm' },
  { field: 'growth.rate', unit: '/a' },
  { field: 'shape.bodyDepth', unit: '1' },
  { field: 'shape.lowerJaw', unit: '1' },
  { field: 'shape.gapeWidth', unit: '1' },
  { field: 'shape.swallowTrial', unit: '1' },
  { field: 'shape.defendedDepth', unit: '1' },
  { field: 'feeding.feedings', unit: '/d' },
  { field: 'feeding.dailyFeed', unit: '1' },
  { field: 'conduct.rockClaim', unit: 'L' },
  { field: 'needs.tankAge', unit: 'd' },
  { field: 'needs.sandDepth', unit: 'cm' },
];

/** What stands in for a figure that a record lacks, without a word of any rule about it. */
function silently(record: SpeciesRecord, { standIns }: Library, field: string): Band | undefined {
  if (record.form !== 'fish') return undefined;
  const { genus, family } = record.taxon;
  const of = (figure: 'totalPerStandard' | 'growthRate' | 'bodyDepth'): Band | undefined =>
    standIn(standIns, 'genus', genus, figure) ?? standIn(standIns, 'family', family, figure);
  if (field === 'growth.rate') return of('growthRate') ?? ANY_GROWTH_RATE;
  if (field === 'size.totalPerStandard') return of('totalPerStandard');
  return field === 'shape.bodyDepth' ? of('bodyDepth') : undefined;
}

const bandAt = (record: SpeciesRecord, library: Library, field: string, unit: string): Band | undefined => {
  const [entry] = entriesAt(record, field);
  if (entry === undefined) return silently(record, library, field);
  return entry.basis === 'measured' || typeof entry.unit !== 'string' ? undefined : bandOf({ ...entry, unit: entry.unit }, unit);
};

/** The record with one figure put to a value, as if it were known for sure. */
function pinned(record: SpeciesRecord, field: string, value: number, unit: string): SpeciesRecord {
  const [group = '', name = ''] = field.split('.');
  const [entry] = entriesAt(record, field);
  const kept = entry === undefined ? {} : { lengthType: entry.lengthType, per: entry.per, at: entry.at };
  const figure = { ...kept, value, low: value, high: value, unit, basis: 'measured' satisfies Basis };
  return { ...record, [group]: { ...(fieldAt(record, group) as object | undefined), [name]: figure } };
}

const saysOf = (judgement: Judgement | undefined): string =>
  judgement === undefined ? 'passed' : `${judgement.finding.outcome} ${judgement.finding.level}`;

const graver = (one: Level, other: Level): Level => (LEVELS_DOWN.indexOf(one) <= LEVELS_DOWN.indexOf(other) ? one : other);

interface Hanging {
  readonly mate: string | undefined;
  readonly rule: string;
  readonly level: Level;
}

/** Of one pair a rule may find the same whichever comes first: it counts once, at its gravest. */
function collected(field: string, standing: Standing, why: Worth['why'], hanging: readonly Hanging[]): Worth {
  const once = new Map<string, Hanging>();
  for (const one of hanging) {
    const key = `${one.mate ?? ''} ${one.rule}`;
    once.set(key, { ...one, level: graver(one.level, once.get(key)?.level ?? 'note') });
  }
  const all = [...once.values()];
  const at = (level: Level): number => all.filter((one) => one.level === level).length;
  const findings = { error: at('error'), warning: at('warning'), note: at('note') };
  const byRule = new Map<string, number>();
  for (const { rule } of all) byRule.set(rule, (byRule.get(rule) ?? 0) + 1);
  return {
    field,
    standing,
    why,
    findings,
    mates: new Set(all.flatMap(({ mate }) => (mate === undefined ? [] : [mate]))).size,
    alone: all.some(({ mate }) => mate === undefined),
    rules: [...byRule]
      .map(([rule, count]) => ({ rule, findings: count }))
      .sort((one, other) => other.findings - one.findings || (one.rule < other.rule ? -1 : 1)),
    weight: LEVELS_DOWN.reduce((sum, level) => sum + WEIGHT[level] * findings[level], 0),
  };
}

/** Findings that come out otherwise in one look than in another. */
function differing(looks: readonly Look['judgements'][]): Hanging[] {
  return [...new Set(looks.flatMap((judgements) => [...judgements.keys()]))].flatMap((key) => {
    const found = looks.map((judgements) => judgements.get(key));
    if (new Set(found.map(saysOf)).size === 1) return [];
    const findings = found.flatMap((judgement) => (judgement === undefined ? [] : [judgement]));
    return findings.map(({ mate, finding }) => ({ mate, rule: finding.rule, level: finding.level }));
  });
}

/** Findings that cannot be told for want of a field, by the field. */
function wanting(record: SpeciesRecord, look: Look): Map<string, Hanging[]> {
  const missing = new Map<string, Hanging[]>();
  for (const { mate, finding, fields } of look.judgements.values()) {
    for (const field of fields) {
      if (standingOf(record, field) !== 'absent') continue;
      missing.set(field, [...(missing.get(field) ?? []), { mate, rule: finding.rule, level: finding.level }]);
    }
  }
  return missing;
}

/** How often gaps are filled to see whether there are others behind them. */
const MOST_ROUNDS = 4;

/** What is worth finding out of a species. */
export interface WorthFinding {
  /** Most first. */
  readonly worth: readonly Worth[];
  /** How many species it was put beside, its own kind among them. */
  readonly mates: number;
  /** The relative whose figures were supposed in place of the gaps, to see what hangs on the rest; undefined where there are no gaps or no relative. */
  readonly supposed: string | undefined;
}

/** Whether it eats fishes is never asked for by name: without it a danger is held to be grave. */
const FISH_EATING = { field: 'feeding.fishEating', words: ['habitual', 'opportunist', 'noneRecorded'] } as const;

function withWord(record: SpeciesRecord, word: (typeof FISH_EATING.words)[number]): SpeciesRecord {
  return { ...record, feeding: { ...record.feeding, fishEating: { value: word, basis: 'recalled' } } };
}

/**
 * What is worth finding out of a species, most first: fields that are missing, by the findings that cannot be told for want of them,
 * and figures that are not measured, by the findings that come out otherwise at the ends of their band. Measured by running the rules
 * on the species alone and beside each species of the library in the tank of reference.
 *
 * Gaps hide what lies behind them. So they are filled, for the asking only, from the nearest relative in the library, and what then
 * is missing or unsure counts as well. Words that are not sure, such as how it feeds, are not varied; whether it eats fishes is, where
 * it is missing.
 */
export function worthFinding(record: SpeciesRecord, library: Library, look: Look = lookAt(record, library)): WorthFinding {
  const missing = wanting(record, look);
  const kin = missing.size === 0 ? undefined : nearestKin(record, library);
  let supposed = record;
  let base = look;
  for (let round = 0; kin !== undefined && round < MOST_ROUNDS; round += 1) {
    const next = likeKin(supposed, kin, [...missing.keys()]);
    if (JSON.stringify(next) === JSON.stringify(supposed)) break;
    supposed = next;
    base = lookAt(supposed, library);
    for (const [field, hanging] of wanting(record, base)) if (!missing.has(field)) missing.set(field, hanging);
  }
  const lacking = [...missing].map(([field, hanging]) => collected(field, 'absent', 'missing', hanging));
  if (record.form === 'fish' && standingOf(record, FISH_EATING.field) === 'absent') {
    const hanging = differing(FISH_EATING.words.map((word) => lookAt(withWord(supposed, word), library).judgements));
    if (hanging.length > 0) lacking.push(collected(FISH_EATING.field, 'absent', 'missing', hanging));
  }
  const unsure = UNCERTAIN.flatMap(({ field, unit }) => {
    const band = missing.has(field) ? undefined : bandAt(record, library, field, unit);
    if (band === undefined) return [];
    const ends = [band.low, band.high].map((value) => lookAt(pinned(supposed, field, value, unit), library).judgements);
    const hanging = differing([base.judgements, ...ends]);
    return hanging.length === 0 ? [] : [collected(field, standingOf(record, field), 'unsure', hanging)];
  });
  return {
    worth: [...lacking, ...unsure].sort((one, other) => other.weight - one.weight || (one.field < other.field ? -1 : 1)),
    mates: look.mates,
    supposed: kin?.id,
  };
}

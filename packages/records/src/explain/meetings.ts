import { type AnyRule, check, type Library, libraryOf, rules, stockOf } from '@commensal/core';
import type { Finding, Level, SpeciesRecord } from '@commensal/schema';
import { referenceSituation } from './reference-tank.js';

/** What a rule came to about a species: failed, or cannot be told. What passed is not listed. */
export interface Judgement {
  /** Id of the species it was beside; its own id for its own kind, undefined where it was alone. */
  readonly mate: string | undefined;
  readonly finding: Finding;
  /** Fields of the record that the finding names as missing, or whose measurement would settle it. */
  readonly fields: readonly string[];
}

/** What was found of a species alone in the tank of reference and beside each of a library, whichever of the two comes first. */
export interface Look {
  /** By a key that stays the same when figures of the record change. */
  readonly judgements: ReadonlyMap<string, Judgement>;
  /** How many species it was put beside, its own kind among them. */
  readonly mates: number;
}

/** About the tank as a whole and slow: asked of the species alone, where one more animal changes nothing. */
const ALONE_ONLY = 'nitrogen';

const pairRules: readonly AnyRule[] = rules.filter(({ id }) => id !== ALONE_ONLY);

/** The gravest first. */
export const LEVELS_DOWN: readonly Level[] = ['error', 'warning', 'note'];

/**
 * Fields as findings name them, as fields of the record: a length is asked of a record as the one it comes in at, growth as its two
 * figures, and a fish's final length is computed from its greatest.
 */
function fieldOf(record: SpeciesRecord, name: string): readonly string[] {
  switch (name) {
    case 'length':
      return record.size?.entry === undefined ? ['size.entry'] : [];
    case 'growth':
      return ['growth.asymptoticLength', 'growth.rate'];
    case 'growth.asymptoticLength':
      if (record.growth?.asymptoticLength !== undefined || record.form !== 'fish') return [name];
      return record.size?.maximum === undefined ? ['size.maximum'] : [name];
    default:
      return name.startsWith('tank.') || name.startsWith('keeper.') || name === 'purchasedOn' || name === 'sex' ? [] : [name];
  }
}

function fieldsNamed(record: SpeciesRecord, me: string, { outcome, data }: Finding): string[] {
  if (outcome !== 'cantTell') return [];
  if (data.of?.animal !== undefined && data.of.animal !== me) return [];
  return [...new Set([...(data.missing?.keys ?? []), ...(data.settle?.keys ?? [])].flatMap((name) => fieldOf(record, name)))];
}

/**
 * Puts a species into the tank of reference, alone and beside each species of a library and one of its own kind, and runs the rules.
 * Of those beside another only what is about both counts.
 */
export function lookAt(record: SpeciesRecord, library: Library): Look {
  const judgements = new Map<string, Judgement>();
  const run = (first: SpeciesRecord, second: SpeciesRecord | undefined, me: 'first' | 'second', mate: string | undefined): void => {
    const species = second === undefined || second.id === first.id ? [first] : [first, second];
    const { stock } = stockOf(referenceSituation(first, second), libraryOf(species, library.standIns));
    for (const finding of check(stock, second === undefined ? rules : pairRules).findings) {
      if (!finding.subjects.some(({ id }) => id === me) || (second !== undefined && finding.subjects.length < 2)) continue;
      judgements.set(`${mate ?? ''} ${me} ${finding.key}`, { mate, finding, fields: fieldsNamed(record, me, finding) });
    }
  };
  run(record, undefined, 'first', undefined);
  const mates = [record, ...[...library.records.values()].filter(({ id, deprecatedIn }) => id !== record.id && deprecatedIn === undefined)];
  for (const mate of mates) {
    run(record, mate, 'first', mate.id);
    run(mate, record, 'second', mate.id);
  }
  return { judgements, mates: mates.length };
}

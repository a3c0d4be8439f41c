import { say, type References, sayNumber, sayRecorded, type Voice } from '@commensal/report';
import type { SpeciesRecord } from '@commensal/schema';
import { entriesAt, type Grounded } from '../field-at.js';

/** A clause about a record, with what it rests on. */
export interface Clause {
  readonly text: string;
  readonly grounds: Grounded;
}

/** What a clause rests on, in words for a bracket. */
function groundsOf({ catalogue }: Voice, references: References, record: SpeciesRecord, grounds: Grounded): string {
  const { basis, source, from, formula } = grounds;
  const cited = source === undefined ? [] : [references.short(source)];
  switch (basis) {
    case 'measured':
      return ['measured', ...cited].join('; ');
    case 'derived':
      return [`computed: ${formula ?? 'from published figures'}`, ...cited].join('; ');
    case 'imputed':
      return [
        `taken from ${from === 'guild' ? 'animals that feed alike' : `its ${from}, ${record.taxon[from ?? 'family']}`}`,
        ...cited,
      ].join('; ');
    default:
      return say(catalogue, `basis.${basis}`);
  }
}

/** Texts in a row: one, one and another, one, another and a third. */
export const inRow = (texts: readonly string[]): string =>
  texts.length < 2 ? texts.join('') : `${texts.slice(0, -1).join(', ')} and ${texts.at(-1)}`;

/**
 * Clauses as one sentence: those that rest on the same share one bracket. Empty without clauses.
 *
 * Each clause starts where the one before ended, so they need one subject: `opening`.
 */
export function sentence(voice: Voice, references: References, record: SpeciesRecord, opening: string, clauses: readonly Clause[]): string {
  const byGrounds = new Map<string, string[]>();
  for (const { text, grounds } of clauses) {
    const key = groundsOf(voice, references, record, grounds);
    byGrounds.set(key, [...(byGrounds.get(key) ?? []), text]);
  }
  if (byGrounds.size === 0) return '';
  const parts = [...byGrounds].map(([grounds, texts]) => `${inRow(texts)} (${grounds})`);
  return `${opening} ${parts.join('; it ')}.`;
}

/** One clause of the first entry of a field, which `said` puts into words; none where it is absent. */
export function clause(
  voice: Voice,
  record: SpeciesRecord,
  field: string,
  wording: (said: () => string, entry: Grounded) => string | undefined,
): Clause[] {
  const [entry] = entriesAt(record, field);
  if (entry === undefined) return [];
  const text = wording(() => sayRecorded(voice, field, entry), entry);
  return text === undefined ? [] : [{ text, grounds: entry }];
}

/** A share of a length, to two digits. */
export const share = (voice: Voice, value: unknown): string =>
  typeof value === 'number' ? sayNumber(voice, value, { maximumSignificantDigits: 2 }) : '';

import { nearMiss } from '@commensal/core';
import type { CslItem, SpeciesRecord } from '@commensal/schema';
import { groundedIn } from '../field-at.js';

/** One record that names a source, and how many of its figures and statements rest on it. */
export interface UseOfSource {
  readonly record: string;
  readonly figures: number;
}

/** An entry of the bibliography with those who use it. */
export interface UsedSource {
  readonly item: CslItem;
  readonly uses: readonly UseOfSource[];
  readonly figures: number;
}

/** A key that records name and the bibliography lacks. */
export interface MissingSource {
  readonly key: string;
  readonly uses: readonly UseOfSource[];
  /** The key of the bibliography that comes nearest; undefined where none is near. */
  readonly near?: string;
}

export interface SourceUse {
  /** Entries that some record uses, in the order of their keys. */
  readonly used: readonly UsedSource[];
  /** Entries that neither a record nor anything of `elsewhere` names. */
  readonly unused: readonly CslItem[];
  readonly missing: readonly MissingSource[];
}

/**
 * Which records use which entry of the bibliography, for how many figures. A key counts as used where a record lists it under
 * `sources` as well as where a figure names it. `elsewhere` are keys that are used by something other than records: stand-ins,
 * rules, cautions.
 */
export function sourceUse(
  records: readonly SpeciesRecord[],
  bibliography: readonly CslItem[],
  elsewhere: ReadonlySet<string> = new Set(),
): SourceUse {
  const byKey = new Map<string, Map<string, number>>();
  const add = (key: string, record: string, figures: number): void => {
    const uses = byKey.get(key) ?? new Map<string, number>();
    uses.set(record, (uses.get(record) ?? 0) + figures);
    byKey.set(key, uses);
  };
  for (const record of records) {
    for (const key of record.sources) add(key, record.id, 0);
    for (const { entry } of groundedIn(record)) if (entry.source !== undefined) add(entry.source, record.id, 1);
  }
  const usesOf = (key: string): UseOfSource[] =>
    [...(byKey.get(key) ?? [])]
      .map(([record, figures]) => ({ record, figures }))
      .sort((one, other) => (one.record < other.record ? -1 : 1));
  const keys = bibliography.map(({ id }) => id);
  const known = new Set(keys);
  const inOrder = [...bibliography].sort((one, other) => (one.id < other.id ? -1 : 1));
  return {
    used: inOrder
      .filter(({ id }) => byKey.has(id))
      .map((item) => {
        const uses = usesOf(item.id);
        return { item, uses, figures: uses.reduce((sum, { figures }) => sum + figures, 0) };
      }),
    unused: inOrder.filter(({ id }) => !byKey.has(id) && !elsewhere.has(id)),
    missing: [...byKey.keys()]
      .filter((key) => !known.has(key))
      .sort()
      .map((key) => {
        const near = nearMiss(key, keys);
        return { key, uses: usesOf(key), ...(near === undefined ? {} : { near }) };
      }),
  };
}

/** The keys of all sources that a document names, at any depth: figures' `source` and lists of `sources`. */
export function sourcesNamedIn(document: unknown): Set<string> {
  const keys = new Set<string>();
  const walk = (part: unknown): void => {
    if (typeof part !== 'object' || part === null) return;
    for (const [name, value] of Object.entries(part)) {
      if (name === 'source' && typeof value === 'string') keys.add(value);
      else if (name === 'sources' && Array.isArray(value)) for (const key of value) if (typeof key === 'string') keys.add(key);
      walk(value);
    }
  };
  walk(document);
  return keys;
}

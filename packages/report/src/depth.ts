import type { CslItem, RuleDescription } from '@commensal/schema';
import type { Library } from '@commensal/core';

/** How deep a report goes: the sentences; the figures beneath each as well; what those rest on as well. */
export const DEPTHS = ['keeper', 'adviser', 'researcher'] as const;
export type Depth = (typeof DEPTHS)[number];

/** What findings rest on, for readers who ask beyond the sentences. */
export interface Grounds {
  /** As `describeRule` gives them. */
  readonly rules: readonly RuleDescription[];
  readonly library: Library;
  /** What the sources of rules and records are. A key that is not in it is printed as it is. */
  readonly bibliography: readonly CslItem[];
}

/** How a report is put into text. */
export type TextOptions = {
  /** Whether to print what is only good to know as well. */
  readonly notes?: boolean | undefined;
} & ({ readonly depth?: 'keeper' | undefined } | { readonly depth: Depth; readonly grounds: Grounds });

/** @throws TypeError where a depth beyond the sentences comes without grounds, as it can from JavaScript. */
export function groundsOf(options: TextOptions): Grounds | undefined {
  const { depth = 'keeper' } = options;
  if (depth === 'keeper') return undefined;
  if ('grounds' in options && options.grounds !== undefined) return options.grounds;
  throw new TypeError(`groundsOf: expected grounds with the depth "${depth}", received none`);
}

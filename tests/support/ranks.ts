import type { Finding } from '@commensal/schema';

const LEVELS = ['note', 'warning', 'error'];

/** How bad a finding is: passed 0, cannot tell 1 to 3, failed 4 to 6. */
export const rankOf = ({ outcome, level }: Pick<Finding, 'outcome' | 'level'>): number =>
  (outcome === 'failed' ? 4 : 1) + LEVELS.indexOf(level);

/** The worst of a list; 0 where nothing was found. */
export const worstOf = (findings: readonly Finding[]): number => Math.max(0, ...findings.map(rankOf));

/** The worst of a list by level first, at one level a failure before a doubt; 0 where nothing was found. */
export const gravestOf = (findings: readonly Finding[]): number =>
  Math.max(0, ...findings.map(({ level, outcome }) => 1 + 2 * LEVELS.indexOf(level) + (outcome === 'failed' ? 1 : 0)));

/** The worst by rule. */
export const worstByRule = (findings: readonly Finding[]): ReadonlyMap<string, number> => {
  const worst = new Map<string, number>();
  for (const finding of findings) worst.set(finding.rule, Math.max(worst.get(finding.rule) ?? 0, rankOf(finding)));
  return worst;
};

import type { Basis } from '@commensal/schema';

/** From the firmest to the weakest. */
export const BASES: readonly Basis[] = ['measured', 'derived', 'imputed', 'practice', 'recalled'];

/**
 * The weakest of several bases; a finding carries the weakest it used.
 *
 * @example
 * weakest('measured', 'practice', 'derived'); // 'practice'
 */
export function weakest(...bases: readonly Basis[]): Basis {
  let at = 0;
  for (const basis of bases) at = Math.max(at, BASES.indexOf(basis));
  return BASES[at] as Basis;
}

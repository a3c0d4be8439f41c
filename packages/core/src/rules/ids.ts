/** Ids of the rules of this package; no other rule goes without its vendor's name. A test holds the list against the rules. */
export const OWN_IDS: readonly string[] = [
  'gape',
  'appetite',
  'rivalry',
  'care-tier',
  'swimming-room',
  'water',
  'shelter',
  'escape',
  'maturity',
  'company',
  'niche',
  'rock-crowding',
  'dominance',
  'nitrogen',
  'quarantine',
  'family-batch',
  'entry-order',
  'entry-gap',
  'lockout',
];

/** The id of someone else's rule: small letters, digits and hyphens on both sides of a slash; 80 signs at most, as in the schemas. */
const VENDOR_ID = /^(?=.{3,80}$)[a-z0-9]+(-[a-z0-9]+)*\/[a-z0-9]+(-[a-z0-9]+)*$/;

/** Whether a rule is someone else's. */
export const isVendors = (id: string): boolean => id.includes('/');

/**
 * Refuses rules that could be taken for others: of settings, acceptances and summaries only the id tells which rule is meant.
 *
 * @throws RangeError for an id that is given twice, and for one that is neither ours nor of the form `vendor/rule`.
 */
export function expectIds(caller: string, rules: readonly { readonly id: string }[]): void {
  const seen = new Set<string>();
  for (const { id } of rules) {
    if (seen.has(id)) throw new RangeError(`${caller}: expected every rule once, received two with the id "${id}"`);
    seen.add(id);
    if (isVendors(id) ? !VENDOR_ID.test(id) : !OWN_IDS.includes(id)) {
      throw new RangeError(
        `${caller}: expected the id of a rule of this package, or one of the form "vendor/rule" in small letters, digits and hyphens, received "${id}"`,
      );
    }
  }
}

/**
 * The properties of an object in the order of its schema; what stands in them where that is an object or a list of objects, else
 * null. `speciesKeys` is that of a species record.
 *
 * @example
 * Object.keys(speciesKeys.taxon ?? {})[0]; // 'scientificName'
 */
export interface KeyOrder {
  readonly [key: string]: KeyOrder | null;
}

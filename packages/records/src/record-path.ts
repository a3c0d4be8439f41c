import type { SpeciesRecord } from '@commensal/schema';

/** How the name of every file of a record ends. */
export const RECORD_ENDING = '.species.json';

/**
 * Where a record stands below the folder of all records: a folder for its family, a file named by its id.
 *
 * @example
 * recordPath({ id: 'gramma-loreto', taxon: { family: 'Grammatidae' } }); // 'grammatidae/gramma-loreto.species.json'
 */
export function recordPath({ id, taxon }: { readonly id: string; readonly taxon: Pick<SpeciesRecord['taxon'], 'family'> }): string {
  return `${taxon.family.toLowerCase()}/${id}${RECORD_ENDING}`;
}

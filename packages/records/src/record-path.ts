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

/**
 * The id that a file's name gives to the record in it, whatever the record itself says; undefined for other files.
 *
 * @example
 * idOfFile('records/grammatidae/gramma-loreto.species.json'); // 'gramma-loreto'
 */
export function idOfFile(file: string): string | undefined {
  const name = file.split(/[/\\]/).at(-1) ?? '';
  return name.endsWith(RECORD_ENDING) ? name.slice(0, -RECORD_ENDING.length) : undefined;
}

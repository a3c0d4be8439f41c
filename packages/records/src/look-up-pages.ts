import type { SpeciesRecord } from '@commensal/schema';

/** Where a species can be looked up, as web addresses. Computed from the names in a record, so that none of them is stored. */
export interface LookUpPages {
  /** Search of the IUCN Red List for the name; its pages have numbers that no name tells. */
  readonly redList: string;
  /** Search of the CITES listings for the name. */
  readonly cites: string;
  /** The page of the World Register of Marine Species; undefined where the record has no `taxonID`. */
  readonly worms?: string;
}

/**
 * Pages on which a species' status and name can be looked up. Whether they hold anything on it is for the reader to see.
 *
 * @example
 * lookUpPages({ scientificName: 'Gramma loreto' }).redList; // 'https://www.iucnredlist.org/search?query=Gramma%20loreto&searchType=species'
 */
export function lookUpPages({ scientificName, taxonID }: Pick<SpeciesRecord['taxon'], 'scientificName' | 'taxonID'>): LookUpPages {
  const name = encodeURIComponent(scientificName);
  const number = taxonID?.split(':').at(-1);
  return {
    redList: `https://www.iucnredlist.org/search?query=${name}&searchType=species`,
    cites: `https://speciesplus.net/species#/taxon_concepts?taxon_concept_query=${name}`,
    ...(number === undefined ? {} : { worms: `https://www.marinespecies.org/aphia.php?p=taxdetails&id=${number}` }),
  };
}

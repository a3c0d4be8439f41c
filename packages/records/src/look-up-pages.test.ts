import { records } from '@commensal/species-sample';
import { describe, expect, it } from 'vitest';
import { lookUpPages } from './look-up-pages.js';

describe('where a species can be looked up', () => {
  it('is told by its scientific name, and by its number in the register', () => {
    expect(lookUpPages({ scientificName: 'Gramma loreto', taxonID: 'urn:lsid:marinespecies.org:taxname:280932' })).toEqual({
      redList: 'https://www.iucnredlist.org/search?query=Gramma%20loreto&searchType=species',
      cites: 'https://speciesplus.net/species#/taxon_concepts?taxon_concept_query=Gramma%20loreto',
      worms: 'https://www.marinespecies.org/aphia.php?p=taxdetails&id=280932',
    });
  });

  it('is not told of the register where the number is not known', () => {
    expect(lookUpPages({ scientificName: 'Gramma loreto' })).not.toHaveProperty('worms');
  });

  it('is a web address of its own for every species', () => {
    expect(records.length).toBeGreaterThan(0);
    const pages = records.flatMap(({ taxon }) => Object.values(lookUpPages(taxon)));
    for (const page of pages) expect(new URL(page).protocol).toBe('https:');
    expect(new Set(pages).size).toBe(pages.length);
  });
});

import type { Situation } from '@commensal/schema';
import type { Library } from '@commensal/core';
import { recordOf } from '@commensal/core';

/** What animals and species are called. */
export interface Names {
  /** An animal's given name; undefined where it has none. */
  givenName(animal: string): string | undefined;
  /** The species of an animal; the id itself where the animal is not known. */
  speciesOf(animal: string): string;
  /** The common name of a species in the language, else in English, else its scientific name. */
  speciesName(species: string): string;
}

/** What is called what in a situation, and in a plan whose newcomers it does not hold yet. */
export function namesIn(
  situation: Situation,
  library: Library,
  language: string,
  planned: readonly { readonly id?: string; readonly species: string }[] = [],
): Names {
  const animals = new Map<string, { name?: string; species: string }>();
  const newcomers = (situation.introductions ?? []).flatMap((introduction) => introduction.animals);
  for (const { id, species } of planned) animals.set(id ?? species, { species });
  for (const { id, name, species } of newcomers) animals.set(id ?? species, { species, ...(name === undefined ? {} : { name }) });
  for (const { id, name, species } of situation.residents ?? []) animals.set(id, { species, ...(name === undefined ? {} : { name }) });
  const lineOf = (animal: string): { name?: string; species: string } | undefined => animals.get(animal) ?? animals.get(animal.replace(/#\d+$/, ''));

  const speciesName = (species: string): string => {
    const record = recordOf(library, species);
    if (record === undefined) return species;
    const named = (tag: string): string | undefined => record.vernacularNames.find((name) => name.language.split('-')[0] === tag.split('-')[0])?.name;
    return named(language) ?? named('en') ?? record.taxon.scientificName;
  };
  return {
    givenName: (animal) => lineOf(animal)?.name,
    speciesOf: (animal) => lineOf(animal)?.species ?? animal,
    speciesName,
  };
}

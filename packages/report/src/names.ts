import type { Situation } from '@commensal/schema';
import type { Library } from '@commensal/core';
import { recordOf } from '@commensal/core';

/** What animals and species are called. */
export interface Names {
  /** An animal's given name, with its number where it is one of a group; undefined where it has none. */
  givenName(animal: string): string | undefined;
  /** What tells an unnamed animal from others of its species, where there are any: its id, or the number that planning gave it. */
  mark(animal: string): string | undefined;
  /** The id of an animal's species; the animal's own id where it is not known. */
  speciesOf(animal: string): string;
  /** The common name of a species in the language, else in English, else its scientific name. */
  speciesName(species: string): string;
  /** Whether that name goes without an article: a scientific name, or one that begins with its owner ("Clark's anemonefish"). */
  isBare(species: string): boolean;
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
  const numberOf = (animal: string): string => /#\d+$/.exec(animal)?.[0] ?? '';
  const lineOf = (animal: string): { name?: string; species: string } | undefined =>
    animals.get(animal) ?? animals.get(animal.slice(0, animal.length - numberOf(animal).length));
  const unnamed = new Map<string, number>();
  for (const { name, species } of animals.values()) if (name === undefined) unnamed.set(species, (unnamed.get(species) ?? 0) + 1);

  /** A planned newcomer is called by its species, with a number behind where that id is taken. */
  const speciesOf = (animal: string): string => {
    const line = lineOf(animal);
    if (line !== undefined) return line.species;
    const withoutNumber = animal.replace(/-\d+$/, '');
    return library.records.has(withoutNumber) ? withoutNumber : animal;
  };
  const commonName = (species: string): string | undefined => {
    const names = recordOf(library, species)?.vernacularNames ?? [];
    const named = (tag: string): string | undefined => names.find((name) => name.language.split('-')[0] === tag.split('-')[0])?.name;
    return named(language) ?? named('en');
  };
  return {
    givenName: (animal) => {
      const name = lineOf(animal)?.name;
      return name === undefined || numberOf(animal) === '' ? name : `${name} ${numberOf(animal)}`;
    },
    mark: (animal) => {
      const species = speciesOf(animal);
      const alone = (unnamed.get(species) ?? 0) < 2 && numberOf(animal) === '';
      if (alone || animal === species) return undefined;
      return animal.startsWith(`${species}-`) ? animal.slice(species.length + 1) : animal;
    },
    speciesOf,
    speciesName: (species) => commonName(species) ?? recordOf(library, species)?.taxon.scientificName ?? scientificFrom(species),
    isBare: (species) => {
      const name = commonName(species);
      return name === undefined || /^\p{Lu}\S*['’]s /u.test(name);
    },
  };
}

/** An id is made of the scientific name. */
const scientificFrom = (species: string): string => species.charAt(0).toUpperCase() + species.slice(1).replaceAll('-', ' ');

/** The sentences of one language. */
export interface Catalogue {
  /** BCP 47 tag. */
  readonly language: string;
  readonly messages: Readonly<Record<string, (slots: Slots) => string>>;
}

/** What fills a sentence: text ready to print, numbers to choose plurals by, words to choose branches by. */
export type Slots = Readonly<Record<string, string | number>>;

/**
 * The sentence of a key. Slots that a sentence has and the caller does not fill read `none`, so that a sentence can leave out
 * what is not known.
 *
 * @throws RangeError when the catalogue lacks the key: those of other people's rules are added with `withSentences`.
 */
export function say(catalogue: Catalogue, key: string, slots: Slots = {}): string {
  const sentence = has(catalogue, key) ? catalogue.messages[key] : undefined;
  if (sentence === undefined) {
    throw new RangeError(
      `say: expected a key of the catalogue "${catalogue.language}", received "${key}"; add its sentence: withSentences(catalogue, { "${key}": "..." })`,
    );
  }
  return sentence(new Proxy(slots, { get: (known, name) => (typeof name === 'string' && name in known ? known[name] : 'none') }));
}

/** Whether the catalogue has a sentence for a key. */
export const has = (catalogue: Catalogue, key: string): boolean => Object.hasOwn(catalogue.messages, key);

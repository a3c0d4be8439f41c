import type { Catalogue, Slots } from './catalogue.js';

/** A sentence: text in which `{slot}` stands for what fills it, or a function of the slots where it has to choose. */
export type Sentence = string | ((slots: Slots) => string);

const SLOT = /\{(\w+)\}/g;

/**
 * A catalogue with more sentences in it: those of rules of your own by the keys that they give (`vendor/rule.outcome`), what the
 * rule asks and how it judges (`question.vendor/rule`, `how.vendor/rule`), names of fields and words (`field.<name>`, `word.<name>`). A key that is there already is
 * worded anew.
 *
 * Slots are those of our own sentences: the names in the finding's `data`, the roles of its subjects, `when`, `level`.
 *
 * @throws RangeError for braces in a text that are more than a slot; choices and plurals take a function. A slot that is not
 * there throws when the sentence is said.
 * @example
 * say(withSentences(en, { 'club/list.closed': 'No room for {animal}.' }), 'club/list.closed', { animal: 'Wick' });
 * // 'No room for Wick.'
 */
export function withSentences(catalogue: Catalogue, sentences: Readonly<Record<string, Sentence>>): Catalogue {
  const added = Object.entries(sentences).map(([key, sentence]) => [key, typeof sentence === 'string' ? filling(key, sentence) : sentence]);
  return { language: catalogue.language, messages: { ...catalogue.messages, ...Object.fromEntries(added) } };
}

function filling(key: string, text: string): (slots: Slots) => string {
  if (/[{}]/.test(text.replaceAll(SLOT, ''))) {
    throw new RangeError(`withSentences: expected no braces in "${key}" but those around the name of a slot, received "${text}"`);
  }
  return (slots) =>
    text.replaceAll(SLOT, (_, name: string) => {
      if (name in slots) return String(slots[name]);
      throw new RangeError(`say: expected a slot of "${key}" (${Object.keys(slots).join(', ')}), received "${name}"`);
    });
}

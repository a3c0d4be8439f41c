import type { RuleDescription } from '@commensal/schema';
import { type Catalogue, has, say } from './catalogue.js';

/** What a rule asks, in the language of the catalogue; a rule that the catalogue does not know asks in its own words. */
export function sayQuestion(catalogue: Catalogue, { id, question }: Pick<RuleDescription, 'id' | 'question'>): string {
  return has(catalogue, `question.${id}`) ? say(catalogue, `question.${id}`) : question;
}

/** How a rule comes to its findings; undefined where the catalogue does not tell. */
export const sayHow = (catalogue: Catalogue, { id }: Pick<RuleDescription, 'id'>): string | undefined =>
  has(catalogue, `how.${id}`) ? say(catalogue, `how.${id}`) : undefined;

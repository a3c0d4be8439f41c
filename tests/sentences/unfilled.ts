import { parse, type Token } from '@messageformat/parser';

type Slots = Readonly<Record<string, unknown>>;

/**
 * The slots that a sentence prints, or chooses by, without being given them; a choice may do without its slot where it has a
 * branch for `none`. Only the branches that are taken count.
 */
export function unfilled(sentence: string, slots: Slots): string[] {
  return inTokens(parse(sentence), slots);
}

const inTokens = (tokens: readonly Token[], slots: Slots): string[] => tokens.flatMap((token) => inToken(token, slots));

function inToken(token: Token, slots: Slots): string[] {
  if (token.type === 'content' || token.type === 'octothorpe') return [];
  const missing = token.arg in slots ? [] : [token.arg];
  if (token.type === 'argument' || token.type === 'function') return missing;
  const value = token.arg in slots ? String(slots[token.arg]) : 'none';
  const taken =
    token.cases.find(({ key }) => key === value || key === `=${value}`) ??
    token.cases.find(({ key }) => token.type === 'plural' && Number(value) === 1 && key === 'one') ??
    token.cases.find(({ key }) => key === 'other');
  const allowed = token.type === 'select' && token.cases.some(({ key }) => key === 'none');
  return [...(allowed ? [] : missing), ...inTokens(taken?.tokens ?? [], slots)];
}

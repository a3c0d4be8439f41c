import { type Catalogue, has, say } from './catalogue.js';

/** Names of the code without a text, such as those of other people's rules, are taken apart into words. */
const inWords = (name: string): string => name.replaceAll(/(?<=[a-z\d])(?=[A-Z])/g, ' ').toLowerCase();

const firstOf = (catalogue: Catalogue, keys: readonly string[]): string | undefined => {
  const key = keys.find((one) => has(catalogue, one));
  return key === undefined ? undefined : say(catalogue, key);
};

/** What a slot of a finding's data is called; a rule may call it otherwise than the rest do. */
export const sayLabel = (catalogue: Catalogue, rule: string, slot: string): string =>
  firstOf(catalogue, [`slot.${rule}.${slot}`, `slot.${slot}`]) ?? inWords(slot);

/** What a threshold is called. */
export const sayThreshold = (catalogue: Catalogue, rule: string, name: string): string =>
  firstOf(catalogue, [`threshold.${rule}.${name}`, `threshold.${name}`]) ?? inWords(name);

/** Several figures or the like in one line. */
export const joined = (catalogue: Catalogue, items: readonly string[]): string =>
  items.length === 0 ? '' : items.reduce((one, other) => say(catalogue, 'depth.joint', { one, other }));

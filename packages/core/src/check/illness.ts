import type { Finding } from '@commensal/schema';

/** Messages that speak of illness, of watching for it, or of copper, which is put into tanks against it. */
export const speaksOfIllness = ({ message }: Pick<Finding, 'message'>): boolean =>
  message.startsWith('quarantine.') || message.startsWith('water.copper');

/** The species, by id, of the animals that such findings are about. */
export function ailingSpecies(
  findings: readonly Finding[],
  animals: readonly { readonly id: string; readonly kind: { readonly id: string } }[],
): string[] {
  const named = new Set(findings.filter(speaksOfIllness).flatMap(({ subjects }) => subjects.map(({ id }) => id)));
  return [...new Set(animals.flatMap(({ id, kind }) => (named.has(id) ? [kind.id] : [])))].sort();
}

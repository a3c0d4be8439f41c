import type { Caution, Hazard, SpeciesRecord } from '@commensal/schema';

/**
 * Dangers to people and duties that come with species: shown whenever the species are, whatever the rules say. One caution a
 * kind and severity; the duty never to release an animal comes with every species.
 */
export function cautionsOf(records: readonly SpeciesRecord[]): Caution[] {
  const bySpecies = new Map(records.map((record) => [record.id, record]));
  const byKind = new Map<string, { kind: Hazard['kind']; severity: Hazard['severity']; species: string[] }>();
  const listed: string[] = [];
  for (const id of [...bySpecies.keys()].sort()) {
    const record = bySpecies.get(id) as SpeciesRecord;
    for (const { kind, severity } of record.hazards ?? []) {
      const key = `${kind} ${severity}`;
      const entry = byKind.get(key) ?? { kind, severity, species: [] };
      if (!entry.species.includes(id)) entry.species.push(id);
      byKind.set(key, entry);
    }
    const { iucn, cites } = record.conservation ?? {};
    if (cites !== undefined || ['VU', 'EN', 'CR', 'EW'].includes(iucn?.category ?? '')) listed.push(id);
  }
  const cautions: Caution[] = [...byKind.values()]
    .sort((one, other) => (one.severity === other.severity ? (one.kind < other.kind ? -1 : 1) : one.severity === 'dangerous' ? -1 : 1))
    .map(({ kind, severity, species }) => ({ kind, severity, species, message: `caution.${kind}.${severity}` }));
  if (listed.length > 0) cautions.push({ kind: 'protected', severity: 'duty', species: listed, message: 'caution.protected' });
  if (bySpecies.size > 0) {
    cautions.push({ kind: 'never-release', severity: 'duty', species: [...bySpecies.keys()].sort(), message: 'caution.neverRelease' });
  }
  return cautions;
}

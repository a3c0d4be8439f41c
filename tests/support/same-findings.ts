import type { Datum, Finding, Situation } from '@commensal/schema';

/** A situation with other ids; events and acceptances go along. */
export function renamed(situation: Situation, name: (id: string) => string): Situation {
  return {
    ...situation,
    residents: (situation.residents ?? []).map((one) => ({ ...one, id: name(one.id) })),
    introductions: (situation.introductions ?? []).map((batch) => ({
      ...batch,
      animals: batch.animals.map((one) => ({ ...one, id: name(one.id ?? one.species) })),
    })),
    events: (situation.events ?? []).map((event) => (event.kind === 'animal-removed' ? { ...event, animal: name(event.animal) } : event)),
  };
}

/**
 * A finding told without regard to who is named first: subjects in a fixed order, and of two animals that are named alike the
 * figures of both in a fixed order.
 */
export function inFixedOrder(finding: Finding, name: (id: string) => string = (id) => id): unknown {
  const { key: _, subjects, data, ...rest } = finding;
  const told = Object.entries(data).map(([part, datum]): [string, Datum] => [
    part,
    datum.animal === undefined ? datum : { ...datum, animal: name(datum.animal) },
  ]);
  const symmetric = finding.message === 'water.noCommonTemperature';
  return {
    ...rest,
    subjects: subjects.map(({ id, role }) => `${role}=${name(id)}`).sort(),
    data: symmetric ? told.map(([, datum]) => JSON.stringify(datum)).sort() : Object.fromEntries(told),
  };
}

/** Findings in a fixed order, whatever their ids. */
export const asSet = (findings: readonly Finding[], name?: (id: string) => string): string[] =>
  findings.map((finding) => JSON.stringify(inFixedOrder(finding, name))).sort();

import { candidatesFor, check, gape, isError, type Library, libraryOf, rules, stockOf } from '@commensal/core';
import type { AnyRule } from '@commensal/core';
import type { Finding, Situation } from '@commensal/schema';
import { records, standIns } from '@commensal/species-sample';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { libraryFor, scenes } from '../support/arbitraries.js';
import { runs } from '../support/runs.js';

/** What check finds in the situation with one introduction more, of what is about the newcomer. */
function byCheck(situation: Situation, library: Library, species: string, count: number, asked: readonly AnyRule[]): Finding[] {
  const date = situation.settings?.notBefore ?? situation.date;
  // By the name it has among candidates: of companions that hold one territory alike the first by name is told.
  const isTaken = stockOf(situation, library).stock.animals.some(({ id }) => id.split('#')[0] === species);
  const id = isTaken ? `${species}-2` : species;
  const more = { date: [date, situation.date].sort()[1] as string, animals: [{ id, species, count }] as const };
  const { stock } = stockOf(
    { ...situation, introductions: [...(situation.introductions ?? []), { ...more, animals: [...more.animals] }] },
    library,
  );
  return check(stock, asked).findings.filter(
    (finding) => finding.level === 'error' && finding.subjects.some((subject) => subject.id === id),
  );
}

const SOME = 12;

it('who may join is whom check has nothing against, with all rules and with one, told with reasons or without', () => {
  const seen = { yes: 0, no: 0, doubts: 0 };
  fc.assert(
    fc.property(
      scenes({ residents: 4, batches: 1 }),
      fc.shuffledSubarray(
        records.map(({ id }) => id),
        { minLength: SOME, maxLength: SOME },
      ),
      (scene, sample) => {
        const library = libraryFor(scene);
        const { situation } = scene;
        const species = [...sample, ...scene.invented.map(({ id }) => id)];
        for (const asked of [rules, [gape]]) {
          const told = candidatesFor(situation, library, { species, rules: asked });
          const whether = candidatesFor(situation, library, { species, rules: asked, asks: 'whether' });
          told.forEach(({ species: id, count, mayJoin, because, doubts }, at) => {
            const found = byCheck(situation, library, id, count, asked);
            const errors = found.filter(isError);
            expect([id, mayJoin]).toEqual([id, errors.length === 0]);
            expect(because.map(({ rule, message, level }) => ({ rule, message, level }))).toEqual(
              errors.map(({ rule, message, level }) => ({ rule, message, level })),
            );
            expect([id, doubts]).toEqual([
              id,
              found.filter(({ outcome, accepted }) => outcome === 'cantTell' && accepted === undefined).length,
            ]);
            expect([id, whether[at]?.mayJoin]).toEqual([id, mayJoin]);
            seen[mayJoin ? 'yes' : 'no'] += 1;
            seen.doubts += doubts ?? 0;
          });
        }
      },
    ),
    { numRuns: runs(60) },
  );
  expect(Math.min(seen.yes, seen.no, seen.doubts)).toBeGreaterThan(0);
});

it('all species of the library are asked when none are named, and a strange one is a slip', () => {
  const library = libraryOf(records, standIns);
  const situation: Situation = {
    $schema: 'https://commensal.example/schema/1.0/situation.schema.json',
    date: '2027-03-01',
    tank: { water: { value: 300, unit: 'L' } },
  };
  expect(candidatesFor(situation, library).map(({ species }) => species)).toEqual(records.map(({ id }) => id));
  expect(() => candidatesFor(situation, library, { species: ['nobody'] })).toThrow(RangeError);
});

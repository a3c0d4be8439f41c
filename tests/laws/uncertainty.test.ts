import { type AnyRule, bandOf, check, libraryOf, type Quantity, rules, stockOf } from '@commensal/core';
import type { Finding, Level, Situation, SpeciesRecord } from '@commensal/schema';
import { records as sample } from '@commensal/species-sample';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { libraryFor, type Scene, scenes } from '../support/arbitraries.js';
import { runs } from '../support/runs.js';

type Path = readonly string[];

/** The laws are tried on every field in turn: together on far more than a thousand scenes. */
const PER_FIELD = 150;

/** A document with what stands at a path changed; as it is where nothing stands there. */
function changedAt<Value>(document: Value, [name, ...rest]: Path, change: (value: unknown) => unknown): Value {
  if (name === undefined) return change(document) as Value;
  if (typeof document !== 'object' || document === null || !(name in document)) return document;
  const inner = (document as Record<string, unknown>)[name];
  const next = changedAt(inner, rest, change);
  const { [name]: _, ...others } = document as Record<string, unknown>;
  return (next === undefined ? others : { ...others, [name]: next }) as Value;
}

/** The judgements that are open or failed, by rule and whom they are about. */
function unsettled(scene: Scene, situation: Situation, records: readonly SpeciesRecord[]): Map<string, Finding> {
  const library = libraryOf(
    [...records, ...sample.filter(({ id }) => !records.some((record) => record.id === id))],
    scene.withStandIns ? libraryFor(scene).standIns : undefined,
  );
  const { stock } = stockOf(situation, library);
  const species = new Map(stock.animals.map(({ id, kind }) => [id, kind.id]));
  return new Map(check(stock, rules as readonly AnyRule[]).findings.map((finding) => [aboutWhom(finding, species), finding]));
}

/** Roles that name a list of whoever else is concerned, which may well change as less is known. */
const LEVELS: readonly Level[] = ['note', 'warning', 'error'];

const FOLLOWERS = new Set(['settler', 'holder', 'unmeasured', 'mate', 'eater', 'rival', 'copper', 'burrow', 'cave', 'hole', 'branches']);

/**
 * Roles and those in them, save the lists that follow, and save who that is where one stands for many: of companions that share a claim any
 * may be told of, and who would rule a tank hangs on all that is known.
 */
function aboutWhom({ rule, subjects }: Finding, species: ReadonlyMap<string, string>): string {
  const first = subjects[0]?.id ?? '';
  if (rule === 'dominance') return rule;
  if (rule === 'rock-crowding') return `${rule} ${species.get(first)}`;
  if (rule === 'entry-order') return `${rule} ${first}`;
  // What is not told of a rival may be told of another; the load of a tank is one sum.
  // Of something kept, what it is may no longer be known.
  if (rule === 'appetite' && subjects.length === 1) return `${rule} ${first}`;
  const named = subjects.filter(({ role }) => rule === 'rivalry' || !FOLLOWERS.has(role));
  return `${rule} ${named.length === 0 ? subjects[0]?.role : named.map(({ id, role }) => `${role}=${id}`).sort()}`;
}

/**
 * What was open or failed is so still. Where two animals share no water, it is enough that one of them is in doubt; and where the temperature of
 * the tank is not told, `water` asks for it, so that nothing need be noted of oxygen.
 */
function expectUnsettled(before: ReadonlyMap<string, Finding>, after: ReadonlyMap<string, Finding>, exempt: readonly string[] = []): void {
  const asks = (rule: string, field: string, id?: string): boolean =>
    [...after.values()].some(
      ({ rule: its, data, subjects }) =>
        its === rule && data.missing?.keys?.includes(field) && (id === undefined || subjects.some((subject) => subject.id === id)),
    );
  const companySpeaksOf = (id: string): boolean =>
    [...after.values()].some(({ rule: its, subjects }) => its === 'company' && subjects.some((one) => one.id === id));
  for (const [key, { rule, subjects, message }] of before) {
    // How animals of one kind treat each other is asked for by `company`, how large they grow once for the load of the tank.
    if (rule === 'rivalry' && subjects.every(({ id }) => companySpeaksOf(id))) continue;
    if (
      (message === 'nitrogen.mayPeak' || message === 'nitrogen.peak') &&
      (asks('nitrogen', 'growth.asymptoticLength') || asks('nitrogen', 'length'))
    )
      continue;
    if (exempt.includes(rule) || (message === 'nitrogen.warmWater' && asks('water', 'tank.temperature'))) continue;
    // Whoever may swallow another whole is asked for by `gape` instead.
    if (rule === 'appetite' && after.has(`gape predator=${subjects[0]?.id},prey=${subjects[1]?.id}`)) continue;
    const inDoubt = rule === 'water' && subjects.some(({ id }) => after.get(`water temperature=${id}`)?.message === 'water.needUnknown');
    expect(after.has(key) || inDoubt, `${key}, ${message}`).toBe(true);
  }
}

/** Widens a band around a centre that stays. */
const widened =
  (times: number) =>
  (value: unknown): unknown => {
    if (typeof value !== 'object' || value === null || !('unit' in value)) return value;
    const quantity = value as Quantity;
    const { low, centre, high } = bandOf(quantity, quantity.unit);
    return { ...quantity, value: centre, low: low / times, high: high * times };
  };

/** Quantities that are uncertain. What an animal wants is no uncertainty: a wider range of temperature suits more tanks. */
const UNCERTAIN: readonly Path[] = [
  ['size', 'maximum'],
  ['size', 'captiveAdult'],
  ['size', 'entry'],
  ['size', 'totalPerStandard'],
  ['growth', 'asymptoticLength'],
  ['growth', 'rate'],
  ['shape', 'bodyDepth'],
  ['shape', 'lowerJaw'],
  ['conduct', 'rockClaim'],
];

describe('widening a range never settles what was open or failed', () => {
  it.each(UNCERTAIN.map((path) => [path.join('.'), path] as const))('%s', (_, path) => {
    let kept = 0;
    fc.assert(
      fc.property(scenes({ residents: 3, batches: 1 }), fc.constantFrom(1.05, 1.3, 2), (scene, times) => {
        const before = unsettled(scene, scene.situation, scene.invented);
        const after = unsettled(
          scene,
          scene.situation,
          scene.invented.map((record) => changedAt(record, path, widened(times))),
        );
        expectUnsettled(before, after);
        // A failure stays one, save where there is now a doubt about something graver.
        for (const [key, { outcome, level }] of before) {
          const then = after.get(key);
          const isGraver = LEVELS.indexOf(then?.level ?? level) > LEVELS.indexOf(level);
          if (outcome === 'failed' && !isGraver) expect(then?.outcome, key).toBe('failed');
        }
        kept += before.size;
      }),
      { numRuns: runs(PER_FIELD) },
    );
    expect(kept).toBeGreaterThan(0);
  });

  it.each(['water', 'length', 'width', 'temperature'] as const)('tank.%s', (reading) => {
    fc.assert(
      fc.property(scenes({ residents: 3, batches: 1 }), fc.constantFrom(1.02, 1.3), (scene, times) => {
        const before = unsettled(scene, scene.situation, scene.invented);
        const after = unsettled(scene, changedAt(scene.situation, ['tank', reading], widened(times)), scene.invented);
        expectUnsettled(before, after);
      }),
      { numRuns: runs(PER_FIELD) },
    );
  });

  it.each(['mass', 'envelope'] as const)('tank.rock.%s', (reading) => {
    fc.assert(
      fc.property(scenes({ residents: 3, batches: 1 }), fc.constantFrom(1.02, 1.3), (scene, times) => {
        const before = unsettled(scene, scene.situation, scene.invented);
        const after = unsettled(scene, changedAt(scene.situation, ['tank', 'rock', reading], widened(times)), scene.invented);
        expectUnsettled(before, after);
      }),
      { numRuns: runs(PER_FIELD) },
    );
  });
});

/**
 * Fields for which nothing stands in, so that a gap must not make anything safe. Left aside are what absence has a meaning of
 * its own for: provisions and hazards (none), kin group (the family), introduction role (ordinary), long snout (none), pH (none
 * asked for), cleaners (none).
 */
const WITHOUT_STAND_IN: readonly Path[] = [
  ['shape', 'bodyDepth'],
  ['shape', 'lowerJaw'],
  ['shape', 'gapeClass'],
  ['feeding', 'fishEating'],
  ['feeding', 'eats'],
  ['needs', 'careTier'],
  ['needs', 'activity'],
  ['needs', 'temperature'],
  ['needs', 'salinity'],
  ['conduct', 'company'],
  ['conduct', 'rockClaim'],
  ['conduct', 'wayOfLiving'],
  ['conduct', 'pugnacity'],
  ['conduct', 'harms'],
  ['conduct', 'escapes'],
  ['conduct'],
  ['feeding', 'pace'],
  ['size', 'totalPerStandard'],
];

/** Rules that have something else to go by where a field is missing, so that they may come to another end without it. */
const STANDS_IN: Readonly<Record<string, readonly string[]>> = {
  // A fish weighs what one of its length usually weighs.
  'shape.bodyDepth': ['entry-gap', 'nitrogen', 'rivalry', 'lockout', 'dominance'],
  'size.totalPerStandard': ['entry-gap', 'nitrogen', 'rivalry', 'lockout', 'dominance'],
  // The list of foods tells whether fishes are among them, and what else may come to harm.
  'feeding.fishEating': ['appetite'],
  // What is eaten may come to harm.
  'conduct.harms': ['appetite'],
  conduct: ['appetite'],
  // The form tells whether an animal swims.
  'needs.activity': ['escape'],
};

/** All of conduct goes, save whom it resembles: silence on that means nobody. */
const withoutConduct = (value: unknown): unknown => {
  const resembles = (value as SpeciesRecord['conduct'])?.resembles;
  return resembles === undefined ? undefined : { resembles };
};

/** Snails and anemones neither jump nor hurry to the food, whether their record says so or not. */
const formTells = ({ form }: SpeciesRecord, path: Path): boolean =>
  ['conduct', 'conduct.escapes', 'feeding.pace'].includes(path.join('.')) && form !== 'fish';

describe('removing a field never settles what was open or failed', () => {
  it.each(WITHOUT_STAND_IN.map((path) => [path.join('.'), path] as const))('%s', (_, path) => {
    let kept = 0;
    fc.assert(
      fc.property(scenes({ residents: 3, batches: 2 }), fc.subarray([0, 1, 2, 3], { minLength: 1 }), (drawn, which) => {
        // Without tables nothing stands in for a figure of shape.
        const scene: Scene = { ...drawn, withStandIns: false };
        const before = unsettled(scene, scene.situation, scene.invented);
        const poorer = scene.invented.map((record, index) =>
          which.includes(index) && !formTells(record, path) ? changedAt(record, path, withoutConduct) : record,
        );
        const after = unsettled(scene, scene.situation, poorer);
        expectUnsettled(before, after, STANDS_IN[path.join('.')]);
        kept += before.size;
      }),
      { numRuns: runs(PER_FIELD) },
    );
    expect(kept).toBeGreaterThan(0);
  });

  /** What is fed tells the load of residents, however long they are. */
  const withoutFeed = (scene: Scene): Scene => ({
    ...scene,
    situation: changedAt(scene.situation, ['tank', 'feed'], () => undefined),
  });

  it('the usual adult length, where no other length is on record', () => {
    fc.assert(
      fc.property(scenes({ residents: 3, batches: 1 }).map(withoutFeed), (drawn) => {
        const lengthless = drawn.invented.map((record) =>
          changedAt(
            changedAt(record, ['growth', 'asymptoticLength'], () => undefined),
            ['size', 'maximum'],
            () => undefined,
          ),
        );
        const scene: Scene = { ...drawn, withStandIns: false, invented: lengthless };
        const before = unsettled(scene, scene.situation, lengthless);
        const after = unsettled(
          scene,
          scene.situation,
          lengthless.map((record) => changedAt(record, ['size', 'captiveAdult'], () => undefined)),
        );
        expectUnsettled(before, after);
      }),
      { numRuns: runs(PER_FIELD) },
    );
  });

  it.each([
    ['keeper'],
    ['tank', 'rock'],
    ['tank', 'length'],
    ['tank', 'width'],
    ['tank', 'temperature'],
    ['tank', 'salinity'],
    ['tank', 'sand'],
    ['tank', 'cover'],
    ['tank', 'pumps'],
    ['tank', 'foods'],
    ['tank', 'kept'],
    ['tank', 'cycledOn'],
    ['tank', 'feedingsPerDay'],
    ['tank', 'holdingTank'],
    ['tank', 'light'],
    ['tank', 'flow'],
    ['tank', 'copper'],
  ])('of the situation: %s %s', (...path) => {
    fc.assert(
      fc.property(scenes({ residents: 3, batches: 1 }), (drawn) => {
        // A lid that is promised stands in for one that is not told.
        const scene = { ...drawn, situation: changedAt(drawn.situation, ['keeper', 'provisions'], () => []) };
        const before = unsettled(scene, scene.situation, scene.invented);
        const after = unsettled(
          scene,
          changedAt(
            scene.situation,
            path.filter((name) => name !== undefined),
            () => undefined,
          ),
          scene.invented,
        );
        expectUnsettled(before, after);
      }),
      { numRuns: runs(PER_FIELD) },
    );
  });
});

/**
 * Plans under rules of somebody else. What such a rule does is not known, only the part in planning that it says it has: a plan
 * under it may be less than the best, but it says so, and by how much at most.
 */
import { type AnyRule, company, gape, libraryOf, plan, type Planned, rockCrowding, type StockAnimal, type Verdict } from '@commensal/core';
import type { Situation } from '@commensal/schema';
import { records } from '@commensal/species-sample';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crowdedScenes, libraryFor } from '../support/arbitraries.js';
import { type Worth, worthByForce } from '../support/plan-by-force.js';
import { runs } from '../support/runs.js';

/** A rule that judges lists of animals; one that has nothing against a list leaves it out. */
function ruleOf(
  planning: AnyRule['planning'],
  fewerAnimals: AnyRule['monotone']['fewerAnimals'],
  against: (animals: readonly StockAnimal[]) => (readonly StockAnimal[])[],
  outcome: Verdict['outcome'] = 'failed',
): AnyRule {
  return {
    id: `quay/${planning}`,
    question: '',
    scope: 'tank',
    planning,
    monotone: { water: 'neither', rock: 'neither', fewerAnimals, delay: 'either' },
    needs: [],
    sources: [],
    defaults: {},
    measure: ({ animals }, _options, each) => {
      for (const list of against(animals)) each(list);
    },
    judge: () => ({ outcome, level: 'error', message: `quay/${planning}.found` }),
    tell: (list) => ({
      subjects: (list as StockAnimal[]).map(({ id }) => ({ id, role: 'animal' })),
      data: {},
      when: null,
      basis: 'practice',
    }),
  };
}

const newcomers = (animals: readonly StockAnimal[]): StockAnimal[] => animals.filter(({ role }) => role === 'newcomer');
const alone = (animals: readonly StockAnimal[], is: (animal: StockAnimal) => boolean): StockAnimal[][] =>
  newcomers(animals)
    .filter(is)
    .map((animal) => [animal]);
const pairs = (animals: readonly StockAnimal[], is: (one: StockAnimal, other: StockAnimal) => boolean): StockAnimal[][] =>
  newcomers(animals).flatMap((one, at) =>
    newcomers(animals)
      .slice(at + 1)
      .filter((other) => is(one, other))
      .map((other) => [one, other]),
  );
const all = (animals: readonly StockAnimal[], is: (comers: readonly StockAnimal[]) => boolean): StockAnimal[][] =>
  is(newcomers(animals)) ? [newcomers(animals)] : [];

const cm = ({ lengthCm }: StockAnimal): number => lengthCm?.centre ?? 0;
const day = ({ entryDay }: StockAnimal): number => entryDay ?? 0;
const initial = ({ kind }: StockAnimal): number => kind.id.charCodeAt(0);
const head = (animals: readonly StockAnimal[]): number => animals.reduce((sum, { count }) => sum + count, 0);

/** What somebody may want of a tank, by the part it plays in planning; `turn` draws one of its kind. */
const WANTS: Readonly<Record<string, (turn: number, outcome: Verdict['outcome']) => AnyRule>> = {
  'option: not on the list': (turn, outcome) =>
    ruleOf('option', 'neither', (animals) => alone(animals, (one) => initial(one) % 3 === turn % 3), outcome),
  'option: long enough': (turn, outcome) => ruleOf('option', 'neither', (animals) => alone(animals, (one) => cm(one) < 3 + turn), outcome),
  'option: short enough': (turn, outcome) => ruleOf('option', 'neither', (animals) => alone(animals, (one) => cm(one) > 3 + turn), outcome),
  'option: not before a day': (turn, outcome) =>
    ruleOf('option', 'neither', (animals) => alone(animals, (one) => day(one) < 20_880 + 15 * turn), outcome),
  'pair: not of one letter': (turn, outcome) =>
    ruleOf('pair', 'better', (animals) => pairs(animals, (one, other) => (initial(one) + initial(other)) % 3 === turn % 3), outcome),
  'pair: a while apart': (turn, outcome) =>
    ruleOf('pair', 'better', (animals) => pairs(animals, (one, other) => Math.abs(day(one) - day(other)) < 20 * turn), outcome),
  'pair: the longer one goes in last': (turn, outcome) =>
    ruleOf('pair', 'better', (animals) => pairs(animals, (one, other) => cm(one) > cm(other) + turn && day(one) < day(other)), outcome),
  'pair: of like length': (turn, outcome) =>
    ruleOf('pair', 'better', (animals) => pairs(animals, (one, other) => Math.abs(cm(one) - cm(other)) > turn), outcome),
  'capacity: so many heads': (turn, outcome) =>
    ruleOf('capacity', 'better', (animals) => all(animals, (comers) => head(comers) > turn), outcome),
  'capacity: so much length': (turn, outcome) =>
    ruleOf(
      'capacity',
      'better',
      (animals) => all(animals, (comers) => comers.reduce((sum, one) => sum + one.count * cm(one), 0) > 6 * turn),
      outcome,
    ),
  'capacity: never just so many': (turn, outcome) =>
    ruleOf('capacity', 'either', (animals) => all(animals, (comers) => head(comers) === turn), outcome),
  'recheck: an odd one needs company': (turn, outcome) =>
    ruleOf('recheck', 'worse', (animals) => all(animals, (comers) => comers.length === 1 + (turn % 2)), outcome),
  'recheck: of no middle length': (turn, outcome) =>
    ruleOf('recheck', 'neither', (animals) => alone(animals, (one) => Math.abs(cm(one) - 3 - turn) > 1), outcome),
  'recheck: on a day that it likes': (turn, outcome) =>
    ruleOf('recheck', 'neither', (animals) => alone(animals, (one) => Math.floor(day(one) / 14) % (2 + (turn % 3)) === 0), outcome),
  'plan: this letter goes in first': (turn, outcome) =>
    ruleOf(
      'plan',
      'either',
      (animals) => {
        const first = Math.min(...newcomers(animals).map(day));
        return alone(animals, (one) => day(one) === first && initial(one) % 2 === turn % 2);
      },
      outcome,
    ),
  'plan: no two days too near': (turn, outcome) =>
    ruleOf(
      'plan',
      'better',
      (animals) => pairs(animals, (one, other) => day(one) !== day(other) && Math.abs(day(one) - day(other)) < 10 * turn),
      outcome,
    ),
};

const LONE: Situation = {
  $schema: 'https://commensal.example/schema/1.0/situation.schema.json',
  date: '2027-03-01',
  tank: { water: { value: 400, unit: 'L' } },
  wishes: [{ species: 'gramma-loreto', priority: 7 }],
};

const FIVE = ['gramma-loreto', 'amphiprion-ocellaris', 'zebrasoma-flavescens', 'synchiropus-splendidus', 'pseudanthias-squamipinnis'];

const warned = (): Verdict => ({ outcome: 'failed', level: 'warning', message: 'quay/option.found' });

const worthOf = ({ wishes = [] }: Situation, { chosen }: Planned): Worth => ({
  priority: chosen.reduce((sum, { species }) => sum + (wishes.find((wish) => wish.species === species)?.priority ?? 5), 0),
  animals: chosen.reduce((sum, { count }) => sum + count, 0),
});

/** There is always an order in which the longer goes in last, so that it keeps nobody out. */
const NEVER = 'pair: the longer one goes in last';

describe.each(Object.entries(WANTS))('under a rule of others (%s)', (name, want) => {
  it('a plan is the best there is, or says by how much it may not be', () => {
    const seen = { excluded: 0, proven: 0 };
    fc.assert(
      fc.property(
        crowdedScenes(3),
        fc.integer({ min: 0, max: 9 }),
        fc.constantFrom('failed' as const, 'failed' as const, 'cantTell' as const),
        (scene, turn, outcome) => {
          const library = libraryFor(scene);
          const { situation } = scene;
          const rules = [gape, company, rockCrowding, want(turn, outcome)] as readonly AnyRule[];
          const planned = plan(situation, library, rules);
          const worth = worthOf(situation, planned);
          const best = worthByForce(situation, library, rules) ?? { priority: 0, animals: 0 };
          expect(worth.priority).toBeLessThanOrEqual(best.priority);
          expect(best.priority).toBeLessThanOrEqual(worth.priority + planned.gap);
          if (planned.proven) expect(worth).toEqual(best);
          if (planned.leftOut.some(({ because }) => because.some(({ rule }) => rule.startsWith('quay/')))) {
            seen.excluded += 1;
            if (planned.proven) seen.proven += 1;
          }
        },
      ),
      { numRuns: runs(40) },
    );
    expect(seen.excluded > 0).toBe(name !== NEVER);
  });
});

describe('what is proven under rules of others', () => {
  const provenUnder = (name: keyof typeof WANTS, times = 40): { excluded: number; proven: number } => {
    const seen = { excluded: 0, proven: 0 };
    fc.assert(
      fc.property(crowdedScenes(4), fc.integer({ min: 1, max: 6 }), (scene, turn) => {
        const situation = { ...scene.situation, settings: { ...scene.situation.settings, whenUncertain: 'avoid' as const } };
        const want = WANTS[name] as (turn: number, outcome: Verdict['outcome']) => AnyRule;
        const planned = plan(situation, libraryFor(scene), [gape, company, rockCrowding, want(turn, 'failed')] as readonly AnyRule[]);
        if (!planned.leftOut.some(({ because }) => because.some(({ rule }) => rule.startsWith('quay/')))) return;
        seen.excluded += 1;
        if (planned.proven) seen.proven += 1;
      }),
      { numRuns: runs(times) },
    );
    expect(seen.excluded).toBeGreaterThan(0);
    return seen;
  };

  it.each(['option: not on the list', 'pair: not of one letter', 'capacity: so many heads', 'capacity: so much length'])(
    '%s: everything',
    (name) => {
      const { excluded, proven } = provenUnder(name);
      expect(proven).toBe(excluded);
    },
  );

  /** One wish in an empty tank, that nothing but the rule could keep out. */
  const lone = (want: AnyRule): Planned => plan(LONE, libraryOf(records), [want]);

  it.each(['option', 'pair', 'capacity', 'recheck', 'plan', 'option-and-pair'] as const)(
    '%s: what always fails is left out',
    (planning) => {
      const planned = lone(ruleOf(planning, 'neither', (animals) => alone(animals, () => true)));
      expect(planned).toMatchObject({ chosen: [], leftOut: [{ species: 'gramma-loreto', because: [{ rule: `quay/${planning}` }] }] });
      // Of one wish every way is tried, so that it is proven of a rule that promises nothing as well.
      expect([planned.proven, planned.gap]).toEqual([true, 0]);
    },
  );

  /** Five wishes on days of their own have more orders and lengths than are tried. */
  const many = (want: AnyRule): Planned =>
    plan({ ...LONE, wishes: FIVE.map((species) => ({ species, priority: 7 })) }, libraryOf(records), [want]);

  it.each([
    ['recheck', 'neither'],
    ['plan', 'neither'],
    ['option', 'worse'],
    ['pair', 'either'],
    ['capacity', 'either'],
  ] as const)('%s: without a promise, or one that more animals can break (%s), what was not tried stays open', (planning, fewerAnimals) => {
    const planned = many(ruleOf(planning, fewerAnimals, (animals) => alone(animals, () => true)));
    expect(planned).toMatchObject({ chosen: [], proven: false });
    expect(planned.gap).toBeGreaterThanOrEqual(7);
  });

  it('an error that names nobody, or a warning, keeps nobody out', () => {
    const nobody = ruleOf('capacity', 'better', () => [[]]);
    const mild = { ...ruleOf('option', 'neither', (animals) => alone(animals, () => true)), judge: warned };
    for (const want of [nobody, mild]) {
      const planned = lone(want);
      expect(planned).toMatchObject({ chosen: [{ species: 'gramma-loreto', count: 1 }], proven: true, gap: 0 });
      expect(planned.findings.map(({ rule }) => rule)).toEqual([want.id]);
      expect(planned.summary.rules[want.id]).toMatchObject({ failed: 1 });
    }
  });

  it('switched off it keeps nobody out, and accepted neither', () => {
    const want = ruleOf('option', 'neither', (animals) => alone(animals, () => true));
    const under = (settings: NonNullable<Situation['settings']>): Planned => plan({ ...LONE, settings }, libraryOf(records), [want]);
    expect(under({ off: [want.id] })).toMatchObject({ chosen: [{}], findings: [], summary: { rules: { [want.id]: { untested: 1 } } } });
    const accepted = [{ key: 'quay/option:animal=gramma-loreto', reason: 'as agreed' }];
    expect(under({ accepted })).toMatchObject({ chosen: [{}], findings: [{ accepted: 'as agreed' }], summary: { accepted: 1 } });
  });
});

describe('a list of rules', () => {
  const one = ruleOf('option', 'neither', () => []);

  it('with two of one id is refused before anything is planned', () => {
    expect(() => plan(LONE, libraryOf(records), [one, gape as AnyRule, one])).toThrow(
      'plan: expected every rule once, received two with the id "quay/option"',
    );
  });

  it('with one of no vendor is refused', () => {
    expect(() => plan(LONE, libraryOf(records), [{ ...one, id: 'opening-hours' }])).toThrow(
      /^plan: expected the id of a rule of this package, or one of the form "vendor\/rule" .*, received "opening-hours"$/,
    );
  });
});

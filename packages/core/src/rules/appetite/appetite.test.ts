/** What animals do to others besides swallowing them: design section 5, `appetite`. */
import type { Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import {
  checkBy,
  exact,
  type Loose,
  newcomer,
  onlyVerdict,
  range,
  recordWith,
  resident,
  situationWith,
  TANK,
} from '../../../tests/support/scene.js';
import { dayOf, isoOf } from '../../quantity/days.js';
import { appetite } from './appetite.js';

type Conduct = NonNullable<SpeciesRecord['conduct']>;
type Harm = NonNullable<Conduct['harms']>[number];

const harm = (what: Harm['what'], more: Partial<Harm> = {}): Harm => ({
  how: 'crushes',
  what,
  harm: 'kills',
  often: 'as-a-rule',
  basis: 'practice',
  ...more,
});

/** An animal of 10 cm that harms. */
const harmer = (harms: Harm[] | undefined, more: Partial<SpeciesRecord> = {}): SpeciesRecord =>
  recordWith('unus-primus', { ...(harms === undefined ? {} : { conduct: { harms: harms as Conduct['harms'] } as Conduct }), ...more });

/** A victim of some form that harms nobody. */
const victim = (more: Partial<SpeciesRecord> = {}): SpeciesRecord => recordWith('duo-alter', more);

const NOTHING_KEPT: Situation['tank'] = { ...TANK, kept: [] };

/** The two together, of so many centimetres. */
const meet = (one: SpeciesRecord, other: SpeciesRecord, more: Loose<Situation> = {}, [oneCm, otherCm] = [10, 10]) =>
  checkBy(
    appetite,
    situationWith({
      tank: NOTHING_KEPT,
      residents: [resident('unus-primus', oneCm)],
      introductions: [{ date: '2027-03-11', animals: [newcomer('duo-alter', otherCm)] }],
      ...more,
    }),
    [one, other],
  );
const verdict = (...args: Parameters<typeof meet>): string => onlyVerdict(meet(...args));

/** A feeder on algae that takes no fish, save for what is passed in. */
const feeding = (more: NonNullable<SpeciesRecord['feeding']>): Partial<SpeciesRecord> => ({
  feeding: { fishEating: said('noneRecorded'), eats: { foods: ['algae'], basis: 'practice' }, ...more },
});
const said = <Value>(value: Value): { value: Value; basis: 'practice' } => ({ value, basis: 'practice' });
const eating = (...foods: NonNullable<NonNullable<SpeciesRecord['feeding']>['eats']>['foods']): Partial<SpeciesRecord> =>
  feeding({ eats: { foods, basis: 'practice' }, fishEating: said('noneRecorded') });

describe('what comes of it and how often make the level', () => {
  it.each([
    ['kills', 'as-a-rule', 'failed error appetite.kills'],
    ['kills', 'at-times', 'failed warning appetite.kills'],
    ['wounds', 'as-a-rule', 'failed warning appetite.wounds'],
    ['wounds', 'at-times', 'failed note appetite.wounds'],
    ['pesters', 'as-a-rule', 'failed note appetite.pesters'],
    ['pesters', 'at-times', 'failed note appetite.pesters'],
  ] as const)('%s %s', (harms, often, expected) => {
    expect(verdict(harmer([harm(['fishes'], { harm: harms, often })]), victim())).toBe(expected);
  });

  it('of several deeds the gravest counts', () => {
    const deeds = [
      harm(['fishes'], { harm: 'pesters' }),
      harm(['slow-fishes'], { often: 'at-times' }),
      harm(['fishes'], { harm: 'wounds' }),
    ];
    expect(verdict(harmer(deeds), victim(feeding({ pace: said('slow') })))).toBe('failed warning appetite.kills');
    expect(verdict(harmer(deeds), victim(feeding({ pace: said('quick') })))).toBe('failed warning appetite.wounds');
  });
});

describe('the words for targets', () => {
  it.each([
    ['fishes', 'fish'],
    ['shrimps', 'shrimp'],
    ['crabs', 'crab'],
    ['hermit-crabs', 'hermit-crab'],
    ['snails', 'snail'],
    ['urchins', 'urchin'],
    ['anemones', 'anemone'],
  ] as const)('%s stands for the form %s and no other', (word, form) => {
    for (const other of ['fish', 'shrimp', 'crab', 'hermit-crab', 'snail', 'urchin', 'anemone'] as const) {
      expect(verdict(harmer([harm([word])]), victim({ form: other, conduct: { harms: [harm(['clams'])] } as Conduct }))).toBe(
        other === form ? 'failed error appetite.kills' : 'nothing judged',
      );
    }
  });

  it('any animal can be the actor', () => {
    const snail = harmer([harm(['fishes'])], { form: 'snail' });
    const { findings } = meet(snail, victim());
    expect(findings.map(({ key, when }) => [key, when])).toEqual([['appetite:actor=unus-primus,victim=duo-alter', '2027-03-11']]);
  });

  it('slow fishes are those that get to the food slowly', () => {
    const actor = harmer([harm(['slow-fishes'])]);
    expect(verdict(actor, victim(feeding({ pace: said('slow') })))).toBe('failed error appetite.kills');
    expect(verdict(actor, victim(feeding({ pace: said('steady') })))).toBe('nothing judged');
    const [finding] = meet(actor, victim()).findings;
    expect(finding).toMatchObject({
      outcome: 'cantTell',
      level: 'error',
      message: 'appetite.unknown',
      data: { missing: { keys: ['feeding.pace'] }, of: { animal: 'duo-alter' } },
    });
  });

  it('its own kind is no target', () => {
    const one = harmer([harm(['fishes'])]);
    const two = [resident('unus-primus', 10, { count: 3 }), resident('unus-primus', 4, { id: 'small' })];
    expect(checkBy(appetite, situationWith({ tank: NOTHING_KEPT, residents: two }), [one]).findings).toEqual([]);
  });
});

describe('small ones', () => {
  const small = harmer([harm(['small-fishes'])]);

  it('are those up to 0.35 of its length', () => {
    expect(verdict(small, victim(), {}, [10, 3.5])).toBe('failed error appetite.kills');
    expect(verdict(small, victim(), {}, [10, 3.6])).toBe('passed');
  });

  it('the share is an option, and the record goes before it', () => {
    const settings = { thresholds: { appetite: { smallShare: 0.5 } } };
    expect(verdict(small, victim(), { settings }, [10, 5])).toBe('failed error appetite.kills');
    expect(verdict(harmer([harm(['small-fishes'], { upToShare: 0.2 })]), victim(), { settings }, [10, 2.1])).toBe('passed');
    expect(verdict(harmer([harm(['fishes'], { upToShare: 2 })]), victim(), {}, [10, 20])).toBe('failed error appetite.kills');
    expect(verdict(harmer([harm(['fishes'], { upToShare: 2 })]), victim(), {}, [10, 20.1])).toBe('passed');
  });

  it('from the day on which the one has outgrown the other, told to the day, with the length that would do', () => {
    const growing = harmer([harm(['small-fishes'])], { growth: { asymptoticLength: exact(25, 'cm'), rate: exact(0.5, '/a') } });
    const other = victim({ growth: { asymptoticLength: exact(8, 'cm'), rate: exact(0.5, '/a') } });
    const { findings } = meet(growing, other, { residents: [resident('unus-primus', 10, { measuredOn: '2027-03-11' })] }, [10, 4]);
    // 0.35 (25 - 15 x) is 8 - 4 x where x is 0.6, and e^(-t / 2) is 0.6 after 1.02165 years, 373.2 days.
    const day = isoOf(dayOf('2027-03-11') + 373);
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({
      outcome: 'failed',
      level: 'error',
      message: 'appetite.kills',
      when: day,
      data: {
        fromDay: { date: day },
        actorLength: { value: 16 },
        victimLength: { value: 5.6 },
        limit: { value: 5.6 },
        safeLength: { value: 8 },
      },
    });
    expect(verdict(growing, other, {}, [10, findings[0]?.data.safeLength?.value as number])).toBe('passed');
  });

  it('a horizon that ends before that passes', () => {
    const growing = harmer([harm(['small-fishes'])], { growth: { asymptoticLength: exact(40, 'cm'), rate: exact(0.5, '/a') } });
    expect(
      verdict(
        growing,
        victim({ growth: { asymptoticLength: exact(4, 'cm'), rate: exact(0.5, '/a') } }),
        { settings: { horizonDays: 30 } },
        [10, 4],
      ),
    ).toBe('passed');
  });

  it('where the lengths are too rough it cannot be told, and the rougher is named', () => {
    const rough = [{ id: 'duo-alter', species: 'duo-alter', length: { low: 3, high: 5, unit: 'cm' as const } }];
    const { findings } = meet(small, victim(), { residents: [resident('unus-primus', 10), ...rough], introductions: [] });
    expect(findings[0]).toMatchObject({
      outcome: 'cantTell',
      level: 'error',
      message: 'appetite.mayReach',
      data: { settle: { keys: ['growth'] }, of: { animal: 'duo-alter' } },
    });
    const doubtLater = victim({ growth: { asymptoticLength: range(3, 20, 'cm'), rate: exact(0.5, '/a') } });
    const grower = harmer([harm(['small-fishes'])], { growth: { asymptoticLength: range(10, 30, 'cm'), rate: range(0.05, 0.4, '/a') } });
    const later = meet(grower, doubtLater, {}, [10, 5]).findings[0];
    expect(later).toMatchObject({ outcome: 'cantTell', message: 'appetite.mayReach' });
    expect((later?.when as string) > '2027-03-11').toBe(true);
  });

  it('a length or a growth that is not known leaves a doubt, unless it is small already', () => {
    const noSize = victim({ size: {} });
    const told = { residents: [resident('unus-primus', 10), { id: 'duo-alter', species: 'duo-alter' }], introductions: [] };
    expect(meet(small, noSize, told).findings[0]).toMatchObject({
      message: 'appetite.unknown',
      data: { missing: { keys: ['length'] }, of: { animal: 'duo-alter' } },
    });
    const swapped = { residents: [{ id: 'unus-primus', species: 'unus-primus' }, resident('duo-alter', 3)], introductions: [] };
    expect(meet(small, victim(), swapped).findings[0]).toMatchObject({
      message: 'appetite.unknown',
      data: { of: { animal: 'unus-primus' } },
    });
    const noGrowth = victim({ size: {}, growth: {} });
    expect(meet(small, noGrowth, {}, [10, 6]).findings[0]).toMatchObject({
      message: 'appetite.unknown',
      data: { missing: { keys: ['growth.asymptoticLength'] } },
    });
    expect(verdict(small, noGrowth, {}, [10, 3])).toBe('failed error appetite.kills');
    expect(meet({ ...small, size: {}, growth: {} }, victim(), {}, [10, 6]).findings[0]).toMatchObject({
      data: { of: { animal: 'unus-primus' } },
    });
  });
});

describe('who is exempt', () => {
  const partnersOf = (species: string): Partial<SpeciesRecord> => ({
    needs: { partners: [{ species, kind: 'host', optional: true, basis: 'practice' }] },
  });

  it('partners, whichever of the two names the other', () => {
    const anemone = harmer([harm(['fishes'], { how: 'stings' })], { form: 'anemone' });
    expect(verdict(anemone, victim())).toBe('failed error appetite.kills');
    expect(verdict(anemone, victim(partnersOf('unus-primus')))).toBe('nothing judged');
    expect(verdict({ ...anemone, ...partnersOf('duo-alter') }, victim())).toBe('nothing judged');
    expect(verdict(anemone, victim(partnersOf('tres-primus')))).toBe('failed error appetite.kills');
  });

  it('cleaners are spared by fishes: one level lower, and said so; not by what crushes, nor by other animals', () => {
    const cleaner = victim(feeding({ cleans: said(true) }));
    const { findings } = meet(harmer([harm(['fishes'], { how: 'tears' })]), cleaner);
    expect(verdict(harmer([harm(['fishes'], { how: 'crushes' })]), cleaner)).toBe('failed error appetite.kills');
    expect(findings[0]).toMatchObject({ outcome: 'failed', level: 'warning', data: { spared: { keys: ['cleaner'] } } });
    expect(verdict(harmer([harm(['fishes'])], { form: 'anemone' }), cleaner)).toBe('failed error appetite.kills');
  });

  it('those that never meet', () => {
    const apart = { events: [{ kind: 'animal-removed' as const, date: '2027-03-05', animal: 'unus-primus' }] };
    expect(verdict(harmer([harm(['fishes'])]), victim(), apart)).toBe('nothing judged');
  });

  it('what the keeper has accepted stays, marked', () => {
    const accepted = [{ key: 'appetite:actor=unus-primus,victim=duo-alter', reason: 'parted by a sheet of glass' }];
    const { findings, summary } = meet(harmer([harm(['fishes'])]), victim(), { settings: { accepted } });
    expect(findings[0]).toMatchObject({ level: 'error', accepted: 'parted by a sheet of glass' });
    expect(summary).toMatchObject({ accepted: 1, failed: { error: 0 } });
  });
});

describe('where the record is silent on harm the diet stands in', () => {
  it('what stands in the diet may be hurt', () => {
    const crusher = harmer(undefined, eating('snails', 'crabs'));
    const [finding] = meet(crusher, victim({ form: 'snail' })).findings;
    expect(finding).toMatchObject({
      outcome: 'cantTell',
      level: 'error',
      message: 'appetite.unknown',
      data: { missing: { keys: ['conduct.harms'] }, of: { animal: 'unus-primus' } },
      basis: 'recalled',
    });
    expect(verdict(crusher, victim({ form: 'hermit-crab' }))).toBe('cantTell error appetite.unknown');
    expect(verdict(crusher, victim({ form: 'urchin' }))).toBe('nothing judged');
  });

  it('a grazer is not in doubt, one without any diet is', () => {
    expect(verdict(harmer(undefined), victim())).toBe('nothing judged');
    expect(verdict(harmer(undefined, { feeding: {} }), victim({ form: 'shrimp' }))).toBe('cantTell error appetite.unknown');
  });

  it('of fishes what is said of fish-eating counts more than the list of foods', () => {
    expect(
      verdict(harmer(undefined, feeding({ fishEating: said('opportunist'), eats: { foods: ['algae'], basis: 'practice' } })), victim()),
    ).toBe('cantTell error appetite.unknown');
    expect(verdict(harmer(undefined, eating('fishes')), victim())).toBe('nothing judged');
    expect(verdict(harmer(undefined, { feeding: { eats: { foods: ['fishes'], basis: 'practice' } } }), victim())).toBe(
      'cantTell error appetite.unknown',
    );
  });

  it('what it takes only small is in question only while small', () => {
    const small = harmer(
      undefined,
      feeding({ fishEating: said('noneRecorded'), eats: { foods: ['shrimps'], small: ['shrimps'], basis: 'practice' } }),
    );
    expect(verdict(small, victim({ form: 'shrimp' }), {}, [10, 3])).toBe('cantTell error appetite.unknown');
    expect(verdict(small, victim({ form: 'shrimp' }), {}, [10, 6])).toBe('passed');
  });

  it('an animal that engulfs is judged by gape where gape judges', () => {
    const shape = { shape: { gapeClass: said('engulfs' as const) } };
    expect(verdict(harmer(undefined, { ...eating('shrimps', 'snails'), ...shape }), victim({ form: 'shrimp' }))).toBe('nothing judged');
    expect(verdict(harmer(undefined, { ...eating('shrimps', 'snails'), ...shape }), victim({ form: 'snail' }))).toBe(
      'cantTell error appetite.unknown',
    );
    // A fish of which nothing is said may engulf; a crab does not.
    expect(verdict(harmer(undefined, { ...eating('shrimps'), shape: {} }), victim({ form: 'shrimp' }))).toBe('nothing judged');
    expect(verdict(harmer(undefined, { ...eating('shrimps'), shape: {}, form: 'crab' }), victim({ form: 'shrimp' }))).toBe(
      'cantTell error appetite.unknown',
    );
  });

  it('an anemone may sting anything, and one that eats scales wounds fishes, unless it cleans', () => {
    expect(verdict(harmer(undefined, { form: 'anemone' }), victim())).toBe('cantTell error appetite.unknown');
    expect(verdict(harmer(undefined, eating('scales-and-mucus')), victim())).toBe('cantTell warning appetite.unknown');
    expect(verdict(harmer(undefined, feeding({ ...eating('scales-and-mucus').feeding, cleans: said(true) })), victim())).toBe(
      'nothing judged',
    );
  });
});

describe('what else is kept', () => {
  const alone = (record: SpeciesRecord, kept: Situation['tank']['kept']) =>
    checkBy(
      appetite,
      situationWith({ tank: { ...TANK, ...(kept === undefined ? {} : { kept }) }, residents: [resident('unus-primus', 10)] }),
      [record],
    );

  it('each thing is told of by itself, at its own level', () => {
    const record = harmer([
      harm(['stony-corals', 'clams'], { how: 'nips' }),
      harm(['sponges'], { harm: 'wounds', often: 'at-times' }),
      harm(['soft-corals'], { harm: 'pesters' }),
    ]);
    const { findings } = alone(record, ['stony-corals', 'soft-corals', 'clams', 'sponges', 'macroalgae']);
    expect(findings.map(({ key, level, message }) => [key, level, message])).toEqual([
      ['appetite:clams=unus-primus', 'error', 'appetite.keptKills'],
      ['appetite:stony-corals=unus-primus', 'error', 'appetite.keptKills'],
      ['appetite:soft-corals=unus-primus', 'note', 'appetite.keptPesters'],
      ['appetite:sponges=unus-primus', 'note', 'appetite.keptWounds'],
    ]);
  });

  it('what is not kept is not harmed', () => {
    expect(alone(harmer([harm(['clams'])]), []).findings).toEqual([]);
    expect(alone(harmer([harm(['clams'])]), ['sponges']).findings).toEqual([]);
  });

  it('a situation that does not tell leaves one doubt an animal, at the level of the gravest', () => {
    const { findings } = alone(harmer([harm(['clams'], { harm: 'wounds' }), harm(['sponges'])]), undefined);
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({
      key: 'appetite:actor=unus-primus',
      outcome: 'cantTell',
      level: 'error',
      message: 'appetite.keptUntold',
      data: { kept: { keys: ['clams', 'sponges'] }, missing: { keys: ['tank.kept'] } },
    });
    expect(alone(harmer([harm(['fishes'])]), undefined).findings).toEqual([]);
  });

  it('where the record is silent the diet stands in', () => {
    expect(onlyVerdict(alone(harmer(undefined, eating('corals')), ['stony-corals', 'sponges']))).toBe(
      'cantTell error appetite.keptUnknown',
    );
    expect(alone(harmer(undefined, eating('corals')), undefined).findings[0]?.data.missing).toEqual({
      keys: ['conduct.harms', 'tank.kept'],
    });
    expect(onlyVerdict(alone(harmer(undefined), ['stony-corals']))).toBe('nothing judged');
  });
});

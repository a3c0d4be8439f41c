import type { Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { checkBy, exact, newcomer, onlyVerdict, recordWith, resident, situationWith, swallower } from '../../../tests/support/scene.js';
import { gape } from './gape.js';

type Feeding = NonNullable<SpeciesRecord['feeding']>;

/** A swallower that stays as long as it is, unless it is given a curve. */
const predator = (more: Partial<SpeciesRecord> = {}, fullCm = 1, ratePerYear = 0.5): SpeciesRecord =>
  swallower('lupus-primus', {
    size: { totalPerStandard: exact(1.25, '1') },
    growth: { asymptoticLength: exact(fullCm, 'cm'), rate: exact(ratePerYear, '/a') },
    ...more,
  });

/** Prey that does not grow, 0.48 of its length deep: twice its length swallows it (0.24 of it passes the mouth). */
const prey = (more: Partial<SpeciesRecord> = {}, depth = 0.6, fullCm = 1): SpeciesRecord =>
  recordWith('agnus-primus', {
    size: { totalPerStandard: exact(1.25, '1') },
    growth: { asymptoticLength: exact(fullCm, 'cm'), rate: exact(0.5, '/a') },
    shape: { bodyDepth: exact(depth, '1'), gapeClass: { value: 'notGapeLimited', basis: 'practice' } },
    ...more,
  });

const eats = (value: 'habitual' | 'opportunist' | 'noneRecorded'): { feeding: Feeding } => ({
  feeding: { fishEating: { value, basis: 'practice' }, eats: { foods: ['fishes'], basis: 'practice' } },
});

const together = (predatorCm: number, preyCm: number, more: Partial<Situation> = {}): Situation =>
  situationWith({ residents: [resident('lupus-primus', predatorCm), resident('agnus-primus', preyCm)], ...more });

const verdict = (situation: Situation, one: SpeciesRecord = predator(), other: SpeciesRecord = prey()): string =>
  onlyVerdict(checkBy(gape, situation, [one, other]));

describe('gape: whether', () => {
  // The bare mouth takes a prey of 10 cm from 20 cm up; squeezed by a quarter, from 16 cm up.
  it.each([
    [20, 'failed error gape.fitsNow'],
    [19.9, 'cantTell error gape.mayFit'],
    [16.1, 'cantTell error gape.mayFit'],
    [15.9, 'passed'],
  ])('a swallower of %f cm and 10 cm of deep prey: %s', (cm, expected) => {
    expect(verdict(together(cm, 10))).toBe(expected);
  });

  // Slender prey: the mouth would do from 6.67 cm up, but nothing longer than 0.70 of standard length (17.86 cm) is known to be
  // taken, and nothing longer than the swallower without its tail (12.5 cm) may be.
  it.each([
    [17.9, 'failed error gape.fitsNow'],
    [17.8, 'cantTell error gape.mayFit'],
    [12.6, 'cantTell error gape.mayFit'],
    [12.4, 'passed'],
  ])('a swallower of %f cm and 10 cm of slender prey: %s', (cm, expected) => {
    expect(verdict(together(cm, 10), predator(), prey({}, 0.2))).toBe(expected);
  });

  describe('a belly that stretches', () => {
    const frog = predator({ shape: { gapeClass: { value: 'distensible', basis: 'practice' } } });

    // 0.5 / 1.25 = 0.4 of its length against 0.32 of the prey's: 8 cm take 10 cm; up to a quarter more, from 6.4 cm.
    it.each([
      [8, 'failed error gape.fitsNow'],
      [7.9, 'cantTell error gape.mayFit'],
      [6.5, 'cantTell error gape.mayFit'],
      [6.3, 'passed'],
    ])('of %f cm takes half its standard length in depth, of prey longer than itself as well: %s', (cm, expected) => {
      expect(verdict(together(cm, 10), frog, prey({}, 0.4))).toBe(expected);
    });

    // Twice the standard length of 8 cm is 12.8 cm, three times 19.2 cm.
    it.each([
      [12.7, 'failed error gape.fitsNow'],
      [12.9, 'cantTell error gape.mayFit'],
      [19.1, 'cantTell error gape.mayFit'],
      [19.3, 'passed'],
    ])('of 8 cm takes no eel many times its own length, %f cm: %s', (cm, expected) => {
      expect(verdict(together(8, cm), frog, prey({}, 0.02))).toBe(expected);
    });
  });

  it.each(['snail', 'hermit-crab', 'urchin', 'anemone'] as const)('nothing is asked of a %s as prey', (form) => {
    expect(verdict(together(50, 5), predator(), prey({ form }))).toBe('nothing judged');
  });

  it('nothing is asked of those that tear and scrape', () => {
    const scraper = predator({ shape: { lowerJaw: exact(0.25, '1'), gapeClass: { value: 'notGapeLimited', basis: 'practice' } } });
    expect(verdict(together(50, 5), scraper)).toBe('nothing judged');
  });
});

describe('gape: how grave', () => {
  // An easy mouthful is under a third of the limit: from 3 x 20 = 60 cm up.
  it.each([
    ['habitual', 30, 'error'],
    ['habitual', 60, 'error'],
    ['opportunist', 59, 'warning'],
    ['opportunist', 60, 'error'],
    ['noneRecorded', 59, 'note'],
    ['noneRecorded', 60, 'warning'],
  ] as const)('fish-eating %s at %i cm: %s', (value, cm, level) => {
    expect(verdict(together(cm, 10), predator(eats(value)))).toBe(`failed ${level} gape.fitsNow`);
  });

  it('one of whom nothing is known counts as habitual', () => {
    expect(verdict(together(30, 10), predator({ feeding: {} }))).toBe('failed error gape.fitsNow');
  });

  it.each([
    ['shrimp', ['fishes'], 'note'],
    ['shrimp', ['shrimps'], 'error'],
    ['crab', ['shrimps'], 'note'],
    ['crab', ['crabs'], 'error'],
  ] as const)('a %s and one that eats %j: %s', (form, foods, level) => {
    const hunter = predator({
      feeding: { fishEating: { value: 'habitual', basis: 'practice' }, eats: { foods: [...foods], basis: 'practice' } },
    });
    // A crab or shrimp has one length only: 0.6 of it deep, so that 25 cm take 10 cm.
    expect(verdict(together(30, 10), hunter, prey({ form }))).toBe(`failed ${level} gape.fitsNow`);
  });

  it('without a diet on record a shrimp counts as food', () => {
    expect(verdict(together(30, 10), predator({ feeding: {} }), prey({ form: 'shrimp' }))).toBe('failed error gape.fitsNow');
  });

  it('partners of one burrow do not swallow each other', () => {
    const partners: SpeciesRecord['needs'] = {
      partners: [{ species: 'agnus-primus', kind: 'burrow-mate', optional: true, basis: 'practice' }],
    };
    expect(verdict(together(20, 10))).toBe('failed error gape.fitsNow');
    expect(verdict(together(20, 10), predator({ needs: partners }))).toBe('nothing judged');
  });

  it('a cleaner is one level safer, and the finding says why', () => {
    const checked = checkBy(gape, together(30, 10), [predator(), prey({ feeding: { cleans: { value: true, basis: 'practice' } } })]);
    expect(onlyVerdict(checked)).toBe('failed warning gape.fitsNow');
    expect(checked.findings[0]?.data.spared).toEqual({ keys: ['cleaner'] });
  });
});

describe('gape: when', () => {
  // 40 - 30 e^(-t / 2) = 20 after 0.8109 years: 296.2 days.
  const grows = predator({}, 40, 0.5);

  it('names the first day, the last safe one, and both numbers on that day', () => {
    const [finding] = checkBy(gape, together(10, 10), [grows, prey()]).findings;
    expect(finding).toMatchObject({
      key: 'gape:predator=lupus-primus,prey=agnus-primus',
      outcome: 'failed',
      level: 'error',
      message: 'gape.fitsFrom',
      when: '2027-12-22',
      basis: 'practice',
      data: {
        interest: { keys: ['habitual'] },
        predatorLength: { value: 20, unit: 'cm' },
        preyLength: { value: 10, unit: 'cm' },
        limit: { value: 4.8, unit: 'cm' },
        preyDepth: { value: 4.8, unit: 'cm' },
        lastSafeDay: { date: '2027-12-21' },
      },
    });
  });

  it('a length measured before counts from its day', () => {
    const residents = [resident('lupus-primus', 10, { measuredOn: '2026-12-22' }), resident('agnus-primus', 10)];
    expect(checkBy(gape, situationWith({ residents }), [grows, prey()]).findings[0]?.when).toBe('2027-10-14');
  });

  it('prey that comes later meets a resident that has grown', () => {
    const introductions = [{ date: '2027-12-23', animals: [newcomer('agnus-primus', 10)] }];
    const [finding] = checkBy(gape, situationWith({ residents: [resident('lupus-primus', 10)], introductions }), [grows, prey()]).findings;
    expect(finding).toMatchObject({ message: 'gape.fitsOnEntry', when: '2027-12-23' });
    expect(finding?.data).not.toHaveProperty('lastSafeDay');
  });

  it('prey that comes beyond the horizon is judged on the day it comes', () => {
    const introductions = [{ date: '2027-12-23', animals: [newcomer('agnus-primus', 10)] }];
    const situation = situationWith({ residents: [resident('lupus-primus', 10)], introductions, settings: { horizonDays: 30 } });
    expect(verdict(situation, grows)).toBe('failed error gape.fitsOnEntry');
  });

  it('only beyond the horizon it is one level milder and has no day', () => {
    const [finding] = checkBy(gape, together(10, 10, { settings: { horizonDays: 290 } }), [grows, prey()]).findings;
    expect(finding).toMatchObject({
      outcome: 'failed',
      level: 'warning',
      message: 'gape.fitsAtFullSize',
      when: null,
      data: { predatorLength: { value: 40, unit: 'cm' }, limit: { value: 9.6, unit: 'cm' } },
    });
  });

  it('may fit only at full size: one level milder as well', () => {
    // 18 cm in the end, 20 wanted, 16 with a squeeze; at 10 cm and a slow pace not within three years.
    expect(verdict(together(10, 10), predator({}, 18, 0.03))).toBe('cantTell warning gape.mayFitAtFullSize');
  });

  it('a doubt has a first day as well', () => {
    // 19 - 9 e^(-t / 2) = 16 after 2 ln 3 = 2.1972 years: 802.5 days, so that the first whole day is the 803rd.
    const [finding] = checkBy(gape, together(10, 10), [predator({}, 19, 0.5), prey()]).findings;
    expect(finding).toMatchObject({
      outcome: 'cantTell',
      message: 'gape.mayFit',
      when: '2029-05-12',
      data: { inDoubt: { keys: ['mouth'] }, settle: { keys: ['shape.swallowTrial'] }, of: { animal: 'lupus-primus' } },
    });
  });

  it('one that leaves first is no danger, then or later', () => {
    const events = [{ kind: 'animal-removed' as const, date: '2027-12-01', animal: 'lupus-primus' }];
    // At most 19.2 cm on the last day: doubtful, no more; and without the squeeze not at all.
    expect(verdict(together(10, 10, { events }), grows)).toBe('cantTell error gape.mayFit');
    const early = [{ kind: 'animal-removed' as const, date: '2027-04-01', animal: 'lupus-primus' }];
    expect(verdict(together(10, 10, { events: early }), grows)).toBe('passed');
  });
});

describe('gape: what would do', () => {
  it('the safe length is safe, and half a centimetre less is not', () => {
    // The swallower reaches 33.3 cm in three years and takes up to 16.65 cm then; the prey hardly grows.
    const grows = predator({}, 40, 0.5);
    const slow = prey({ growth: { asymptoticLength: exact(20, 'cm'), rate: exact(0.03, '/a') } });
    const safe = checkBy(gape, together(10, 10), [grows, slow]).findings[0]?.data.safeLength?.value as number;
    expect(safe).toBeGreaterThan(16);
    expect(safe * 2).toBe(Math.round(safe * 2));
    const outcomeAt = (cm: number): string | undefined => checkBy(gape, together(10, cm), [grows, slow]).findings[0]?.message;
    expect(outcomeAt(safe)).not.toBe('gape.fitsFrom');
    expect(outcomeAt(safe - 0.5)).toBe('gape.fitsFrom');
  });

  it('no length is told where none the prey can have would do', () => {
    expect(checkBy(gape, together(60, 10), [predator(), prey({}, 0.6, 12)]).findings[0]?.data).not.toHaveProperty('safeLength');
  });
});

describe('gape: what is missing', () => {
  it.each([
    ['shape.bodyDepth', 'agnus-primus', predator(), prey({ shape: { gapeClass: { value: 'notGapeLimited', basis: 'practice' } } })],
    ['shape.lowerJaw', 'lupus-primus', predator({ shape: { gapeClass: { value: 'engulfs', basis: 'practice' } } }), prey()],
    ['shape.gapeClass', 'lupus-primus', predator({ shape: { lowerJaw: exact(0.25, '1') } }), prey()],
    ['size.totalPerStandard', 'lupus-primus', predator({ size: {} }), prey()],
    ['growth.asymptoticLength', 'lupus-primus', predator({ growth: {} }), prey()],
    ['growth.asymptoticLength', 'agnus-primus', predator(), prey({ growth: {} })],
  ])('cannot tell without %s of %s, and says so', (field, whose, one, other) => {
    const checked = checkBy(gape, together(20, 10), [one, other]);
    expect(onlyVerdict(checked)).toBe('cantTell error gape.unknown');
    expect(checked.findings[0]).toMatchObject({
      when: null,
      basis: 'recalled',
      data: { missing: { keys: [field] }, of: { animal: whose } },
    });
  });

  it('nor without a length', () => {
    const { length: _, ...unmeasured } = resident('agnus-primus', 1);
    const checked = checkBy(gape, situationWith({ residents: [resident('lupus-primus', 20), unmeasured] }), [predator(), prey()]);
    expect(checked.findings[0]).toMatchObject({
      message: 'gape.unknown',
      data: { missing: { keys: ['length'] }, of: { animal: 'agnus-primus' } },
    });
  });

  it('a long snout says nothing of the gape', () => {
    const snout = predator({
      shape: {
        lowerJaw: exact(0.25, '1'),
        longSnout: { value: true, basis: 'practice' },
        gapeClass: { value: 'engulfs', basis: 'practice' },
      },
    });
    expect(verdict(together(20, 10), snout)).toBe('cantTell error gape.unknown');
  });
});

describe('gape: settings', () => {
  it.each([
    ['longestShare', { longestShare: 0.9 }, 15, 0.2, 'failed warning gape.fitsNow'],
    ['longestShareAtMost', { longestShareAtMost: 0.8 }, 15, 0.2, 'passed'],
    ['smallShare', { smallShare: 0.9 }, 22.3, 0.6, 'failed error gape.fitsNow'],
  ] as const)('%s', (_, thresholds, cm, depth, expected) => {
    const outcomes = [{}, { thresholds: { gape: thresholds } }].map((settings) =>
      verdict(together(cm, 10, { settings }), predator(eats('opportunist')), prey({}, depth)),
    );
    expect(outcomes[1]).toBe(expected);
    expect(outcomes[0]).not.toBe(expected);
  });

  it.each([
    ['distensibleLimit', { distensibleLimit: 0.2 }, 0.4],
    ['distensibleLongestShareAtMost', { distensibleLongestShareAtMost: 1.5, distensibleLongestShare: 1.5 }, 0.2],
  ] as const)('%s', (_, thresholds, depth) => {
    // 10 cm of prey against a standard length of 6.4 cm.
    const frog = predator({ shape: { gapeClass: { value: 'distensible', basis: 'practice' } } });
    const at = (settings: NonNullable<Situation['settings']>): string => verdict(together(8, 10, { settings }), frog, prey({}, depth));
    expect(at({})).toBe('failed error gape.fitsNow');
    expect(at({ thresholds: { gape: thresholds } })).toBe('passed');
  });

  it('lookBeyondYears', () => {
    // Slow prey outgrows the mouth in the end; for some years after the horizon it would fit.
    const grows = predator({}, 32, 0.2);
    const slow = prey({ growth: { asymptoticLength: exact(20, 'cm'), rate: exact(0.05, '/a') } });
    const at = (lookBeyondYears: number): string =>
      verdict(together(10, 10, { settings: { horizonDays: 800, thresholds: { gape: { lookBeyondYears } } } }), grows, slow);
    expect(at(60)).toBe('failed warning gape.fitsAtFullSize');
    expect(at(0)).not.toBe('failed warning gape.fitsAtFullSize');
  });
});

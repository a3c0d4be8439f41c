/** Whether each animal finds its food beside the others: design section 5, `niche`. */
import type { Introduction, Resident, Situation, SpeciesRecord } from '@commensal/schema';
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
  verdictOf,
} from '../../../tests/support/scene.js';
import { niche } from './niche.js';

type Feeding = NonNullable<SpeciesRecord['feeding']>;

const said = <Value>(value: Value): { value: Value; basis: 'practice' } => ({ value, basis: 'practice' });
const feeds = (feeding: Feeding, more: Partial<SpeciesRecord> = {}, id = 'unus-primus'): SpeciesRecord =>
  recordWith(id, { feeding: { pace: said('steady'), ...feeding }, ...more });

const found = (
  tank: Partial<Situation['tank']>,
  records: SpeciesRecord[],
  residents: Resident[] = [resident('unus-primus', 10)],
  more: Loose<Situation> & { introductions?: Introduction[] } = {},
) => checkBy(niche, situationWith({ tank: { ...TANK, ...tank }, residents, ...more }), records);
const verdict = (...args: Parameters<typeof found>): string => onlyVerdict(found(...args));

const COPEPODS = { food: 'copepods', basis: 'practice' } as const;

describe('a special food', () => {
  const obligate = feeds({ specialist: { ...COPEPODS, obligate: true } });
  const choosy = feeds({ specialist: { ...COPEPODS, obligate: false } });

  it('on offer passes', () => expect(verdict({ foods: ['algae', 'copepods'] }, [obligate])).toBe('passed'));

  it('known to be absent starves what cannot do without', () => {
    expect(found({ foods: ['algae'] }, [obligate]).findings[0]).toMatchObject({
      key: 'niche:specialist=unus-primus',
      outcome: 'failed',
      level: 'error',
      message: 'niche.starves',
      data: { food: { keys: ['copepods'] } },
      basis: 'practice',
    });
    expect(verdict({ foods: [] }, [choosy])).toBe('failed warning niche.foodLacking');
  });

  it('in a tank whose foods are not told cannot be told', () => {
    expect(found({}, [obligate]).findings[0]).toMatchObject({
      outcome: 'cantTell',
      level: 'error',
      message: 'niche.foodUnknown',
      data: { missing: { keys: ['tank.foods'] } },
    });
    expect(verdict({}, [choosy])).toBe('cantTell warning niche.foodUnknown');
  });

  it('is no question for an animal without one', () => expect(verdict({}, [feeds({})])).toBe('nothing judged'));
});

describe('several on one scarce food', () => {
  const foods: Situation['tank']['foods'] = ['copepods', 'sponges'];
  const water = (value: number) => ({ foods, water: { value, unit: 'L' as const } });
  const records = [
    feeds({ specialist: { ...COPEPODS, obligate: true } }),
    feeds({ specialist: { ...COPEPODS, obligate: false } }, {}, 'duo-alter'),
  ];
  const both = [resident('unus-primus', 10), resident('duo-alter', 10)];

  it('want 300 litres each', () => {
    expect(verdict(water(600), records, both)).toBe('passed');
    expect(found(water(599), records, both).findings[0]).toMatchObject({
      key: 'niche:sharer=duo-alter,sharer=unus-primus',
      outcome: 'failed',
      level: 'warning',
      message: 'niche.tooMany',
      data: { count: { value: 2 }, each: { value: 300, unit: 'L' }, needed: { value: 600 }, water: { value: 599 }, enough: { value: 1 } },
    });
    expect(verdict({ foods, water: { low: 500, high: 800, unit: 'L' } }, records, both)).toBe('cantTell warning niche.mayBeTooMany');
  });

  it('the litres are an option', () => {
    const settings = { thresholds: { niche: { litresPerSpecialist: 100 } } };
    expect(verdict(water(240), records, both, { settings })).toBe('passed');
  });

  it('one by itself has enough, animals of one line count each, other foods do not', () => {
    expect(verdict(water(100), records)).toBe('passed');
    expect(verdict(water(500), records, [resident('unus-primus', 10, { count: 2 })])).toBe('failed warning niche.tooMany');
    const sponges = feeds({ specialist: { food: 'sponges', obligate: false, basis: 'practice' } }, {}, 'duo-alter');
    expect(verdict(water(100), [records[0] as SpeciesRecord, sponges], both)).toBe('passed');
  });

  it('only those in the tank at a time count, and the day is told', () => {
    const introductions = [{ date: '2027-04-01', animals: [newcomer('duo-alter', 10)] }];
    expect(found(water(500), records, undefined, { introductions }).findings[0]).toMatchObject({ when: '2027-04-01' });
    const events = [{ kind: 'animal-removed' as const, date: '2027-03-20', animal: 'unus-primus' }];
    expect(verdict(water(500), records, undefined, { introductions, events })).toBe('passed');
  });

  it('a food that is not there is told of once', () => {
    expect(found({ foods: [] }, records, both).findings.map(verdictOf)).toEqual([
      'failed error niche.starves',
      'failed warning niche.foodLacking',
    ]);
  });
});

describe('slow feeders', () => {
  const slow = feeds({ pace: said('slow') });
  const mate = (pace: 'quick' | 'steady' | undefined, more: Partial<SpeciesRecord> = {}) =>
    recordWith('duo-alter', { feeding: pace === undefined ? {} : { pace: said(pace) }, ...more });
  const both = [resident('unus-primus', 10), resident('duo-alter', 10)];

  it('go short beside quick ones, of whatever form', () => {
    expect(found({}, [slow, mate('quick')], both).findings[0]).toMatchObject({
      key: 'niche:feeder=unus-primus,mate=duo-alter',
      outcome: 'failed',
      level: 'warning',
      message: 'niche.outpaced',
    });
    expect(verdict({}, [slow, mate('quick', { form: 'shrimp' })], both)).toBe('failed warning niche.outpaced');
    expect(verdict({}, [slow, mate('steady')], both)).toBe('passed');
  });

  it('of which the keeper feeds each by hand are only noted', () => {
    const keeper: Situation['keeper'] = { careTier: 2, provisions: ['feeding-by-hand'] };
    expect(found({}, [slow, mate('quick')], both, { keeper }).findings[0]).toMatchObject({
      level: 'note',
      data: { byHand: { keys: ['feeding-by-hand'] } },
    });
  });

  it('from how many quick ones on is an option', () => {
    const settings = { thresholds: { niche: { quickMates: 2 } } };
    expect(verdict({}, [slow, mate('quick')], both, { settings })).toBe('passed');
    expect(verdict({}, [slow, mate('quick')], [resident('unus-primus', 10), resident('duo-alter', 10, { count: 2 })], { settings })).toBe(
      'failed warning niche.outpaced',
    );
  });

  it('are not their own kind, nor those that never meet it, nor snails', () => {
    expect(verdict({}, [slow], [resident('unus-primus', 10, { count: 3 })])).toBe('passed');
    const events = [{ kind: 'animal-removed' as const, date: '2027-02-20', animal: 'duo-alter' }];
    expect(verdict({}, [slow, mate('quick')], both, { events })).toBe('passed');
    expect(verdict({}, [{ ...slow, form: 'snail' }, mate('quick')], both)).toBe('nothing judged');
  });

  it('or mates of which the pace is not known cannot be told', () => {
    expect(found({}, [slow, mate(undefined)], both).findings[0]).toMatchObject({
      outcome: 'cantTell',
      level: 'warning',
      message: 'niche.paceUnknown',
      data: { missing: { keys: ['feeding.pace'] }, of: { animal: 'duo-alter' } },
    });
    expect(
      found({}, [slow, mate('quick'), recordWith('tres-primus', { feeding: {} })], [...both, resident('tres-primus', 10)]).findings.map(
        ({ key, outcome }) => [key, outcome],
      ),
    ).toEqual([
      ['niche:feeder=unus-primus,mate=duo-alter', 'failed'],
      ['niche:feeder=tres-primus,mate=duo-alter', 'cantTell'],
    ]);
    expect(verdict({}, [slow, mate(undefined, { form: 'snail' })], both)).toBe('passed');
  });
});

describe('feedings a day', () => {
  const often = feeds({ feedings: exact(3, '/d') });

  it('as many as wanted pass, fewer do not', () => {
    expect(verdict({ feedingsPerDay: 3 }, [often])).toBe('passed');
    expect(found({ feedingsPerDay: 2 }, [often]).findings[0]).toMatchObject({
      key: 'niche:animal=unus-primus',
      outcome: 'failed',
      level: 'warning',
      message: 'niche.fedTooSeldom',
      data: { given: { value: 2 }, wantsLow: { value: 3 } },
    });
  });

  it('a bare number is the line itself; of a range its upper part is in doubt', () => {
    expect(verdict({ feedingsPerDay: 3 }, [feeds({ feedings: { value: 3, unit: '/d', basis: 'recalled' } })])).toBe('passed');
    const ranged = feeds({ feedings: range(2, 4, '/d') });
    expect([1, 2, 3, 4].map((feedingsPerDay) => verdict({ feedingsPerDay }, [ranged]))).toEqual([
      'failed warning niche.fedTooSeldom',
      'failed warning niche.fedTooSeldom',
      'cantTell warning niche.mayBeFedTooSeldom',
      'passed',
    ]);
  });

  it('that the situation does not tell cannot be told', () => {
    expect(found({}, [often]).findings[0]).toMatchObject({
      outcome: 'cantTell',
      level: 'warning',
      message: 'niche.feedingsUnknown',
      data: { missing: { keys: ['tank.feedingsPerDay'] } },
    });
  });
});

it('what the keeper has accepted stays, marked', () => {
  const settings = { accepted: [{ key: 'niche:animal=unus-primus', reason: 'a drip feeder runs all day' }] };
  expect(found({ feedingsPerDay: 1 }, [feeds({ feedings: exact(3, '/d') })], undefined, { settings }).findings[0]).toMatchObject({
    accepted: 'a drip feeder runs all day',
  });
});

import type { Change, Situation } from '@commensal/schema';
import { situationProblems } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { deepFrozen, inventedSituation } from '../../tests/support/invented.js';
import { tankOf } from '../stock/tank-of.js';
import { applyChange } from './apply.js';

/** A situation in which every change has something to change, and something to leave alone. */
const FULL: Situation = inventedSituation({
  keeper: { name: 'Wren', careTier: 1, provisions: ['tight-lid'] },
  tank: {
    water: { value: 240, unit: 'L' },
    length: { value: 48, unit: '[in_i]' },
    width: { value: 45, unit: 'cm' },
    height: { value: 50, unit: 'cm' },
    rock: { mass: { value: 30, unit: 'kg' } },
    temperature: { value: 78, unit: '[degF]' },
    foods: ['algae'],
    copper: 'present',
  },
  residents: [
    { id: 'bosun', species: 'unus-primus' },
    { id: 'trio', species: 'unus-alter', count: 3 },
  ],
  wishes: [{ species: 'duo-primus' }, { species: 'duo-alter', count: [2, 4] }, { species: 'tres-primus', must: true }],
  introductions: [{ date: '2027-04-01', animals: [{ species: 'duo-primus' }] }],
  events: [
    { kind: 'animal-removed', date: '2027-05-01', animal: 'bosun' },
    { kind: 'animal-removed', date: '2027-05-01', animal: 'trio#2' },
    { kind: 'animal-removed', date: '2027-06-01', animal: 'duo-primus' },
    { kind: 'animal-removed', date: '2027-06-01', animal: 'duo-alter' },
    { kind: 'rock-relaid', date: '2027-04-01' },
  ],
  settings: {
    horizonDays: 400,
    accepted: [
      { key: 'gape:predator=bosun,prey=trio', reason: 'watched for years' },
      { key: 'company:animal=trio', reason: 'sisters' },
      { key: 'care-tier:animal=duo-alter', reason: 'help is at hand' },
    ],
  },
});

/** One of each kind; the compiler sees to it that none is missing. */
const CHANGES: { readonly [Kind in Change['kind']]: Extract<Change, { kind: Kind }> } = {
  'more-rock': { kind: 'more-rock', massKg: 8 },
  'larger-tank': { kind: 'larger-tank', lengthCm: 150, widthCm: 60, waterL: 400 },
  'warmer-or-cooler': { kind: 'warmer-or-cooler', lowCel: 18, highCel: 22 },
  'more-experience': { kind: 'more-experience', careTier: 3 },
  'provision-made': { kind: 'provision-made', provisions: ['live-copepods', 'tight-lid'] },
  'without-resident': { kind: 'without-resident', animal: 'bosun' },
  'instead-of': { kind: 'instead-of', species: ['duo-primus', 'duo-alter'] },
  'this-length': { kind: 'this-length', species: 'tres-primus', lengthCm: 6.5 },
  'this-count': { kind: 'this-count', species: 'duo-alter', count: 2 },
  'not-before': { kind: 'not-before', date: '2027-05-02' },
  'rock-relaid': { kind: 'rock-relaid', date: '2027-04-15' },
  'food-offered': { kind: 'food-offered', food: 'copepods' },
  'without-copper': { kind: 'without-copper' },
};
const EACH = Object.entries(CHANGES) as [Change['kind'], Change][];
const LEAST = inventedSituation();

const changed = (change: Change, situation: Situation = FULL): Situation => applyChange(deepFrozen(structuredClone(situation)), change);

describe.each(EACH)('%s', (_, change) => {
  it.each([
    ['a full situation', FULL],
    ['the least situation', LEAST],
  ])('turns %s into one that is valid, and leaves the one passed in as it was', (__, situation) => {
    expect(situationProblems(situation)).toEqual([]);
    const before = deepFrozen(structuredClone(situation));
    const after = applyChange(before, change);
    expect(situationProblems(after)).toEqual([]);
    expect(before).toEqual(situation);
  });

  it('changes something in a full situation, and making it a second time is no less valid', () => {
    const once = changed(change);
    expect(once).not.toEqual(FULL);
    expect(situationProblems(changed(change, once))).toEqual([]);
  });
});

describe('more-rock', () => {
  const litres = (situation: Situation): number => tankOf(situation.tank).rockL?.centre ?? Number.NaN;
  const withRock = (rock: Situation['tank']['rock']): Situation =>
    inventedSituation({ tank: { water: { value: 240, unit: 'L' }, ...(rock === undefined ? {} : { rock }) } });
  const more: Change = { kind: 'more-rock', massKg: 15.4 };

  it('adds to the mass in the unit it is told in', () => {
    expect(changed(more, withRock({ mass: { value: 30, unit: 'kg' } })).tank.rock).toEqual({ mass: { value: 45.4, unit: 'kg' } });
    expect(changed(more, withRock({ mass: { low: 1000, high: 2000, unit: 'g' } })).tank.rock).toEqual({
      mass: { low: 16400, high: 17400, unit: 'g' },
    });
  });

  it.each([
    ['told as a mass', { mass: { value: 30, unit: 'kg' } }],
    ['told in pounds', { mass: { value: 66, unit: '[lb_av]' } }],
    ['told as a volume', { envelope: { value: 20, unit: 'L' } }],
    ['told in gallons, as a range', { envelope: { low: 5, high: 6, unit: '[gal_us]' } }],
    ['told as both', { envelope: { value: 20, unit: 'L' }, mass: { value: 30, unit: 'kg' } }],
  ] as const)('of 15.4 kg adds 10 litres to rock %s', (_, rock) => {
    const before = withRock(rock);
    // 15.4 kg over 2.8 kg/L and 55 % of solid; nine decimals, for the conversions there and back.
    expect(litres(changed(more, before)) - litres(before)).toBeCloseTo(10, 9);
  });

  it('in a tank whose rock is not told of counts alone', () => {
    expect(litres(changed(more, withRock(undefined)))).toBeCloseTo(10, 9); // as above
  });

  it('keeps what else is told of the rock', () => {
    const rock = { mass: { value: 30, unit: 'kg' }, porosity: { value: 0.2, unit: '1' } } as const;
    expect(changed(more, withRock(rock)).tank.rock).toEqual({ ...rock, mass: { value: 45.4, unit: 'kg' } });
  });
});

describe('the tank', () => {
  it('larger-tank sets length, width and water, and leaves the rest', () => {
    expect(changed(CHANGES['larger-tank']).tank).toEqual({
      ...FULL.tank,
      length: { value: 150, unit: 'cm' },
      width: { value: 60, unit: 'cm' },
      water: { value: 400, unit: 'L' },
    });
  });

  it('warmer-or-cooler sets the range of temperature, and leaves the rest', () => {
    expect(changed(CHANGES['warmer-or-cooler']).tank).toEqual({ ...FULL.tank, temperature: { low: 18, high: 22, unit: 'Cel' } });
  });
});

describe('the keeper', () => {
  it('more-experience raises the tier and keeps name and provisions', () => {
    expect(changed(CHANGES['more-experience']).keeper).toEqual({ name: 'Wren', careTier: 3, provisions: ['tight-lid'] });
    expect(changed(CHANGES['more-experience'], LEAST).keeper).toEqual({ careTier: 3 });
  });

  it('provision-made adds what is not there yet, and keeps the tier', () => {
    expect(changed(CHANGES['provision-made']).keeper).toEqual({ name: 'Wren', careTier: 1, provisions: ['tight-lid', 'live-copepods'] });
  });

  it('a keeper of whom nothing is told counts as a novice once a provision is made', () => {
    expect(changed(CHANGES['provision-made'], LEAST).keeper).toEqual({ careTier: 1, provisions: ['live-copepods', 'tight-lid'] });
  });
});

describe('animals', () => {
  it('without-resident takes out the resident, its removal and what was accepted of it, and nothing else', () => {
    const after = changed(CHANGES['without-resident']);
    expect(after.residents).toEqual(FULL.residents?.slice(1));
    expect(after.events).toEqual(FULL.events?.slice(1));
    expect(after.settings).toEqual({ horizonDays: 400, accepted: FULL.settings?.accepted?.slice(1) });
    expect({ ...after, residents: [], events: [], settings: {} }).toEqual({ ...FULL, residents: [], events: [], settings: {} });
  });

  it('a whole group goes by its id, with the removals of its single animals', () => {
    const after = changed({ kind: 'without-resident', animal: 'trio' });
    expect(after.residents?.map((resident) => resident.id)).toEqual(['bosun']);
    expect(after.events).toEqual(FULL.events?.filter((event) => event.kind !== 'animal-removed' || event.animal !== 'trio#2'));
    expect(after.settings?.accepted?.map((acceptance) => acceptance.key)).toEqual(['care-tier:animal=duo-alter']);
  });

  it('a resident that is not there leaves everything as it was', () => {
    expect(changed({ kind: 'without-resident', animal: 'nobody' })).toEqual(FULL);
  });

  it('instead-of takes back wishes, not introductions, nor what names an animal that still comes', () => {
    const after = changed(CHANGES['instead-of']);
    expect(after.wishes).toEqual(FULL.wishes?.slice(2));
    expect(after.introductions).toEqual(FULL.introductions);
    expect(after.events).toEqual(FULL.events?.filter((event) => event.kind !== 'animal-removed' || event.animal !== 'duo-alter'));
    expect(after.settings?.accepted).toEqual(FULL.settings?.accepted?.slice(0, 2));
  });
});

describe('wishes', () => {
  it('this-length sets the length of every wish for the species, and leaves the rest', () => {
    const twice: Situation = { ...FULL, wishes: [...(FULL.wishes ?? []), { species: 'tres-primus', priority: 2 }] };
    const length = { value: 6.5, unit: 'cm' };
    expect(changed(CHANGES['this-length'], twice)).toEqual({
      ...twice,
      wishes: [
        ...(FULL.wishes ?? []).slice(0, 2),
        { species: 'tres-primus', must: true, length },
        { species: 'tres-primus', priority: 2, length },
      ],
    });
  });

  // Planning reads all lengths as total lengths in cm; of an animal without a tail it reads what it is measured by.
  it.each([
    ['SL', { value: 6.5, unit: 'cm' }],
    ['FL', { value: 6.5, unit: 'cm' }],
    ['TL', { value: 6.5, unit: 'cm' }],
    ['DM', { value: 6.5, unit: 'cm', lengthType: 'DM' }],
    ['SH', { value: 6.5, unit: 'cm', lengthType: 'SH' }],
  ] as const)('this-length in place of one told as %s', (lengthType, length) => {
    const wishes: Situation['wishes'] = [{ species: 'tres-primus', length: { low: 2, high: 3, unit: '[in_i]', lengthType } }];
    expect(changed(CHANGES['this-length'], { ...FULL, wishes }).wishes).toEqual([{ species: 'tres-primus', length }]);
  });

  it('this-count leaves one number to choose, and keeps the rest', () => {
    expect(changed(CHANGES['this-count'])).toEqual({
      ...FULL,
      wishes: [{ species: 'duo-primus' }, { species: 'duo-alter', count: [2, 2] }, { species: 'tres-primus', must: true }],
    });
  });

  it('a species that nobody wishes for leaves everything as it was', () => {
    expect(changed({ kind: 'this-count', species: 'nemo-primus', count: 2 })).toEqual(FULL);
    expect(changed({ kind: 'this-length', species: 'nemo-primus', lengthCm: 2 })).toEqual(FULL);
  });
});

describe('days', () => {
  it('not-before sets the first day of entry, and keeps the other settings', () => {
    expect(changed(CHANGES['not-before'])).toEqual({ ...FULL, settings: { ...FULL.settings, notBefore: '2027-05-02' } });
    expect(changed(CHANGES['not-before'], LEAST).settings).toEqual({ notBefore: '2027-05-02' });
  });

  it('rock-relaid adds the event, once for each day', () => {
    const once = changed(CHANGES['rock-relaid']);
    expect(once).toEqual({ ...FULL, events: [...(FULL.events ?? []), { kind: 'rock-relaid', date: '2027-04-15' }] });
    expect(changed(CHANGES['rock-relaid'], once)).toEqual(once);
    expect(changed(CHANGES['rock-relaid'], LEAST).events).toEqual([{ kind: 'rock-relaid', date: '2027-04-15' }]);
  });
});

describe('what is in the water', () => {
  it('food-offered adds a food that is not there yet', () => {
    expect(changed(CHANGES['food-offered']).tank).toEqual({ ...FULL.tank, foods: ['algae', 'copepods'] });
    expect(changed({ kind: 'food-offered', food: 'algae' })).toEqual(FULL);
    expect(changed(CHANGES['food-offered'], LEAST).tank.foods).toEqual(['copepods']);
  });

  it('without-copper leaves a tank that was treated, and one that never was stays so', () => {
    expect(changed(CHANGES['without-copper']).tank).toEqual({ ...FULL.tank, copper: 'removed' });
    const never: Situation = { ...FULL, tank: { ...FULL.tank, copper: 'never' } };
    expect(changed(CHANGES['without-copper'], never)).toEqual(never);
  });
});

import type { Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { exact, PEACEFUL, range, recordWith, resident, situationWith, swallower, TANK } from '../../tests/support/scene.js';
import { libraryOf } from '../stock/library.js';
import { MOST_WISHES, plan, type Planned } from './plan.js';

const planned = (more: Partial<Situation>, records: readonly SpeciesRecord[]): Planned => plan(situationWith(more), libraryOf(records));

const days = ({ introductions }: Planned): string[] =>
  introductions.map(({ date, animals }) => `${date} ${animals.map(({ species }) => species).join(' ')}`);

const kin = (id: string, group: string, more: Partial<SpeciesRecord> = {}): SpeciesRecord =>
  recordWith(id, { kinGroup: { value: group, basis: 'practice' }, ...more });

const fierce: Partial<SpeciesRecord> = {
  conduct: { pugnacity: { ...PEACEFUL, others: 3 }, rockClaim: exact(0, 'L'), company: { kind: 'any', basis: 'practice' } },
};

const as = (value: 'scavenger' | 'early' | 'last'): Partial<SpeciesRecord> => ({ introduction: { value, basis: 'practice' } });

describe('the order of introductions', () => {
  it('scavengers first, then early settlers, the peaceful, those that take over, and the pugnacious last', () => {
    const records = [
      kin('ira-primus', 'i', fierce),
      kin('finis-primus', 'f', as('last')),
      kin('mus-primus', 'm', as('scavenger')),
      kin('pax-primus', 'p'),
      kin('mane-primus', 'e', as('early')),
    ];
    const result = planned({ wishes: records.map(({ id }) => ({ species: id })) }, records);
    expect(days(result)).toEqual([
      '2027-03-01 mus-primus',
      '2027-03-29 mane-primus',
      '2027-04-26 pax-primus',
      '2027-05-24 finis-primus',
      '2027-06-21 ira-primus',
    ]);
    expect(result.introductions.map(({ reasons }) => reasons.map(({ message }) => message))).toEqual([
      ['order.fromToday', 'order.scavengersFirst'],
      ['order.gap'],
      ['order.gap'],
      ['order.gap'],
      ['order.gap', 'order.pugnaciousLater'],
    ]);
    expect(result.findings.filter(({ rule }) => rule === 'entry-order')).toEqual([]);
  });

  it('kin together, and nothing claimed of peace where there is none', () => {
    const records = [kin('ira-primus', 'i', fierce), kin('ira-alter', 'i', fierce)];
    const [only, ...others] = planned({ wishes: records.map(({ id }) => ({ species: id })) }, records).introductions;
    expect(others).toEqual([]);
    expect(only?.reasons.map(({ message, data }) => [message, data.kinGroup?.keys])).toEqual([
      ['order.fromToday', undefined],
      ['order.sameFamily', ['i']],
    ]);
  });

  it('waits for the tank, and for the last that went in', () => {
    const records = [recordWith('pax-primus')];
    const wishes = [{ species: 'pax-primus' }];
    const first = (more: Partial<Situation>): unknown[] =>
      planned({ wishes, ...more }, records).introductions.map(({ date, reasons }) => [date, reasons[0]?.message]);
    expect(first({ tank: { ...TANK, cycledOn: '2027-04-10' } })).toEqual([['2027-04-10', 'order.onceCycled']]);
    expect(first({ residents: [resident('pax-primus', 10, { id: 'r', enteredOn: '2027-02-20' })] })).toEqual([
      ['2027-03-20', 'order.afterResidents'],
    ]);
    expect(first({ introductions: [{ date: '2027-05-01', animals: [{ id: 'p', species: 'pax-primus' }] }] })).toEqual([
      ['2027-05-29', 'order.afterResidents'],
    ]);
  });
});

describe('entry lengths', () => {
  // Of 10 cm of prey a mouth of 20 cm takes hold; both are sold from half to full size and do not grow.
  const young = (low: number, high: number): NonNullable<SpeciesRecord['size']> => ({
    captiveAdult: exact(1, 'cm'),
    entry: range(low, high, 'cm'),
    totalPerStandard: exact(1.25, '1'),
  });
  const still: NonNullable<SpeciesRecord['growth']> = { asymptoticLength: exact(1, 'cm'), rate: exact(0.5, '/a') };
  const wolf = swallower('lupus-primus', { kinGroup: { value: 'w', basis: 'practice' }, size: young(15, 25), growth: still });
  const lamb = recordWith('agnus-primus', { size: young(6, 10), growth: still });

  it('in no danger everything comes at its middle length', () => {
    const [only] = planned({ wishes: [{ species: 'agnus-primus' }] }, [lamb]).introductions;
    expect(only?.animals[0]?.length).toEqual({ value: 8, unit: 'cm' });
  });

  it('prey is bought long and a swallower short where that is what saves it', () => {
    const { chosen, introductions } = planned({ wishes: [{ species: 'agnus-primus' }, { species: 'lupus-primus' }] }, [lamb, wolf]);
    expect(chosen).toHaveLength(2);
    expect(
      Object.fromEntries(introductions.flatMap(({ animals }) => animals.map(({ species, length }) => [species, length?.value]))),
    ).toEqual({
      'agnus-primus': 10,
      'lupus-primus': 15,
    });
  });

  it('a resident that swallows it at any length keeps it out, and the plan says what would help', () => {
    const { leftOut } = planned({ wishes: [{ species: 'agnus-primus' }], residents: [resident('lupus-primus', 40, { id: 'lobo' })] }, [
      lamb,
      wolf,
    ]);
    expect(leftOut).toMatchObject([
      {
        species: 'agnus-primus',
        count: 1,
        because: [{ key: 'gape:predator=lobo,prey=agnus-primus', level: 'error' }],
        rather: [],
        wouldNeed: [{ kind: 'without-resident', animal: 'lobo' }],
      },
    ]);
  });

  it('an accepted danger keeps nothing out', () => {
    const key = 'gape:predator=lobo,prey=agnus-primus';
    const { chosen, findings } = planned(
      {
        wishes: [{ species: 'agnus-primus' }],
        residents: [resident('lupus-primus', 40, { id: 'lobo' })],
        settings: { accepted: [{ key, reason: 'Separate sumps.' }] },
      },
      [lamb, wolf],
    );
    expect(chosen).toHaveLength(1);
    expect(findings.find((finding) => finding.key === key)?.accepted).toBe('Separate sumps.');
  });

  it('small enough to leave room, where rock is what lacks', () => {
    // Claims go by the square of the length: 8 L at 10 cm, 2 L at 5 cm.
    const claimant = (id: string): SpeciesRecord =>
      kin(id, 'k', {
        size: { captiveAdult: exact(10, 'cm'), entry: range(5, 10, 'cm'), totalPerStandard: exact(1.25, '1') },
        growth: { asymptoticLength: exact(1, 'cm'), rate: exact(0.5, '/a') },
        conduct: {
          pugnacity: PEACEFUL,
          rockClaim: exact(8, 'L'),
          wayOfLiving: { value: 'grazes-rock', basis: 'practice' },
          company: { kind: 'any', basis: 'practice' },
        },
      });
    const tank = { ...TANK, rock: { envelope: { value: 2.1, unit: 'L' as const } } };
    const records = ['unus-primus', 'duo-primus'].map(claimant);
    const { chosen, introductions } = planned({ tank, wishes: records.map(({ id }) => ({ species: id })) }, records);
    expect(chosen).toHaveLength(2);
    expect(introductions.flatMap(({ animals }) => animals.map(({ length }) => length?.value))).toEqual([5, 5]);
  });
});

describe('a plan', () => {
  const pax = recordWith('pax-primus');

  it('names newcomers unlike what is there', () => {
    const residents = [resident('pax-primus', 10), resident('pax-primus', 10, { id: 'pax-primus-2' })];
    const { introductions } = planned({ residents, wishes: [{ species: 'pax-primus' }, { species: 'pax-primus' }] }, [pax]);
    expect(introductions.flatMap(({ animals }) => animals.map(({ id }) => id))).toEqual(['pax-primus-3', 'pax-primus-4']);
  });

  it('does not blame a wish for what the residents do to each other', () => {
    const wolf = swallower('lupus-primus');
    const lamb = recordWith('agnus-primus', {
      shape: { bodyDepth: exact(0.6, '1'), gapeClass: { value: 'notGapeLimited', basis: 'practice' } },
    });
    const deep = recordWith('pax-primus', { form: 'snail' });
    const { chosen, findings } = planned(
      { residents: [resident('lupus-primus', 40), resident('agnus-primus', 10)], wishes: [{ species: 'pax-primus' }] },
      [wolf, lamb, deep],
    );
    expect(chosen).toEqual([{ species: 'pax-primus', count: 1 }]);
    expect(findings.map(({ key }) => key)).toContain('gape:predator=lupus-primus,prey=agnus-primus');
  });

  it('of a wish for several takes the most that work', () => {
    const pair = recordWith('pax-primus', {
      conduct: { ...pax.conduct, pugnacity: { ...PEACEFUL, ownKind: 3 }, company: { kind: 'pair', basis: 'practice' } },
    });
    expect(planned({ wishes: [{ species: 'pax-primus', count: [1, 5] }] }, [pair]).chosen).toEqual([{ species: 'pax-primus', count: 2 }]);
  });

  it('tells what a wish would need: experience, provisions, a larger tank, other water, another wish left out', () => {
    const needs = (more: NonNullable<SpeciesRecord['needs']>): Partial<SpeciesRecord> => ({ needs: { ...pax.needs, ...more } });
    const records = [
      recordWith('durus-primus', needs({ careTier: { value: 3, basis: 'practice' } })),
      recordWith(
        'egens-primus',
        needs({ careTier: { value: 3, basis: 'practice' }, provisions: { list: ['quiet-company', 'dim-light'], basis: 'practice' } }),
      ),
      recordWith('magnus-primus', { size: { ...pax.size, captiveAdult: exact(60, 'cm') } }),
      recordWith('frigus-primus', needs({ temperature: range(15, 18, 'Cel'), temperatureLimits: range(10, 20, 'Cel') })),
    ];
    const changes = (species: string, careTier: number): unknown[] =>
      planned({ keeper: { careTier }, wishes: [{ species }] }, records).leftOut.flatMap(({ wouldNeed }) => wouldNeed);
    expect(changes('durus-primus', 1)).toEqual([{ kind: 'more-experience', careTier: 3 }]);
    expect(changes('egens-primus', 2)).toEqual([
      { kind: 'provision-made', provisions: ['quiet-company', 'dim-light'] },
      { kind: 'more-experience', careTier: 3 },
    ]);
    // 60 cm: 300 cm long, 120 cm wide, 300 x 120 x 60 / 1000 L: it perches.
    expect(changes('magnus-primus', 1)).toEqual([{ kind: 'larger-tank', lengthCm: 300, widthCm: 120, waterL: 2160 }]);
    expect(changes('frigus-primus', 1)).toEqual([{ kind: 'warmer-or-cooler', lowCel: 15, highCel: 18 }]);
  });

  it('tells what it would rather have', () => {
    const still: Partial<SpeciesRecord> = {
      size: { entry: exact(40, 'cm'), totalPerStandard: exact(1.25, '1') },
      growth: { asymptoticLength: exact(40, 'cm'), rate: exact(0.5, '/a') },
    };
    const records = [
      swallower('lupus-primus', {
        ...still,
        kinGroup: { value: 'w', basis: 'practice' },
        needs: { ...pax.needs, activity: { value: 'fixed', basis: 'practice' } },
      }),
      pax,
    ];
    const { leftOut } = planned(
      {
        wishes: [
          { species: 'lupus-primus', priority: 2 },
          { species: 'pax-primus', priority: 3 },
        ],
      },
      records,
    );
    expect(leftOut).toMatchObject([
      { species: 'lupus-primus', rather: ['pax-primus'], wouldNeed: [{ kind: 'instead-of', species: ['pax-primus'] }] },
    ]);
  });

  it('makes nothing of no wishes', () => {
    expect(planned({}, [])).toMatchObject({ chosen: [], introductions: [], leftOut: [], proven: true, gap: 0 });
  });

  it('refuses more wishes than it can weigh', () => {
    const wishes = Array.from({ length: MOST_WISHES + 1 }, () => ({ species: 'pax-primus' }));
    expect(() => planned({ wishes }, [pax])).toThrow('plan: expected at most 128 wishes, received 129');
    const numbers = [1, 2, 3].map(() => ({ species: 'pax-primus', count: [1, 200] as [number, number] }));
    expect(() => planned({ wishes: numbers }, [pax])).toThrow('plan: expected at most 512 numbers of wishes in all, received 600');
  });
});

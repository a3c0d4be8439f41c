/** The shelter that animals need: design section 5, `shelter`. */
import type { Introduction, Resident, Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import {
  checkBy,
  exact,
  newcomer,
  onlyVerdict,
  range,
  recordWith,
  resident,
  situationWith,
  TANK,
  verdictOf,
} from '../../../tests/support/scene.js';
import { shelter } from './shelter.js';

type Needs = NonNullable<SpeciesRecord['needs']>;
type Tank = Situation['tank'];

const needing = (needs: Needs, more: Partial<SpeciesRecord> = {}, id = 'unus-primus'): SpeciesRecord => recordWith(id, { needs, ...more });
const place = (kind: NonNullable<Needs['shelter']>[number]['kind'], optional?: boolean): Needs => ({
  shelter: [{ kind, basis: 'practice', ...(optional === undefined ? {} : { optional }) }],
});

/** What is found of residents, by default one of the first record, in a tank with more in it. */
const found = (
  tank: Partial<Tank>,
  records: SpeciesRecord[],
  residents: Resident[] = [resident('unus-primus', 10)],
  introductions: Introduction[] = [],
) => checkBy(shelter, situationWith({ tank: { ...TANK, ...tank }, residents, introductions }), records);
const verdict = (...args: Parameters<typeof found>): string => onlyVerdict(found(...args));

describe('sand', () => {
  const cm = (value: number) => ({ value, unit: 'cm' as const });
  const deep = needing({ sandDepth: { value: 5, unit: 'cm', basis: 'practice' } });

  it('as deep as wanted passes, less does not', () => {
    expect(verdict({ sand: { depth: cm(5) } }, [deep])).toBe('passed');
    const [finding] = found({ sand: { depth: cm(4.9), grain: 'fine' } }, [deep]).findings;
    expect(finding).toMatchObject({
      key: 'shelter:digger=unus-primus',
      outcome: 'failed',
      level: 'warning',
      message: 'shelter.sandShallow',
      data: { wants: { value: 5, unit: 'cm' }, sand: { value: 4.9, unit: 'cm' }, sandGrain: { keys: ['fine'] } },
      basis: 'practice',
    });
  });

  it('between the middle and the end of what is wanted, or of what was read, it cannot be told', () => {
    const wide = needing({ sandDepth: range(4, 8, 'cm') });
    expect(verdict({ sand: { depth: cm(5.9) } }, [wide])).toBe('failed warning shelter.sandShallow');
    expect(verdict({ sand: { depth: cm(6) } }, [wide])).toBe('cantTell warning shelter.sandMayBeShallow');
    expect(verdict({ sand: { depth: cm(8) } }, [wide])).toBe('passed');
    expect(verdict({ sand: { depth: { low: 4, high: 7, unit: 'cm' } } }, [deep])).toBe('cantTell warning shelter.sandMayBeShallow');
  });

  it('of the wrong grain fails, any grain will do where any is wanted', () => {
    const grain = (value: 'fine' | 'coarse' | 'any') => needing({ ...place('sand-bed'), sandGrain: { value, basis: 'practice' } });
    expect(verdict({ sand: { depth: cm(5), grain: 'coarse' } }, [grain('fine')])).toBe('failed warning shelter.sandGrain');
    expect(verdict({ sand: { grain: 'coarse' } }, [grain('fine')])).toBe('failed warning shelter.sandGrain');
    expect(verdict({ sand: { depth: cm(5), grain: 'coarse' } }, [grain('coarse')])).toBe('passed');
    expect(verdict({ sand: { depth: cm(5), grain: 'coarse' } }, [grain('any')])).toBe('passed');
  });

  it('that nothing is told of cannot be told, with what is missing', () => {
    expect(found({}, [deep]).findings[0]).toMatchObject({
      outcome: 'cantTell',
      level: 'warning',
      message: 'shelter.sandUnknown',
      data: { missing: { keys: ['tank.sand.depth'] } },
    });
    const fine = needing({ sandGrain: { value: 'fine', basis: 'practice' } });
    expect(found({}, [fine]).findings[0]?.data.missing).toEqual({ keys: ['tank.sand.depth', 'tank.sand.grain'] });
    expect(found({ sand: { depth: cm(5) } }, [fine]).findings[0]?.data.missing).toEqual({ keys: ['tank.sand.grain'] });
  });

  it('that it can do without is only noted', () => {
    const optional = needing({ ...place('sand-bed', true), sandDepth: exact(5, 'cm') });
    expect(verdict({ sand: { depth: cm(2) } }, [optional])).toBe('failed note shelter.sandShallow');
    expect(verdict({}, [optional])).toBe('cantTell note shelter.sandUnknown');
  });

  it('is nothing to an animal whose record asks for none', () => {
    expect(verdict({}, [recordWith('unus-primus')])).toBe('nothing judged');
  });
});

describe('places that can be counted', () => {
  it.each([
    ['cave', 'caves'],
    ['hole', 'holes'],
    ['burrow', 'burrows'],
    ['branches', 'branches'],
  ] as const)('%s', (kind, field) => {
    const record = needing(place(kind));
    expect(verdict({ shelters: { [field]: 1 } }, [record])).toBe('passed');
    const [finding] = found({ shelters: { [field]: 0 } }, [record]).findings;
    expect(finding).toMatchObject({
      key: `shelter:${kind}=unus-primus`,
      outcome: 'failed',
      level: 'warning',
      message: 'shelter.tooFew',
      data: { places: { value: 1 }, there: { value: 0 }, lacking: { value: 1 } },
    });
    const [doubt] = found({}, [record]).findings;
    expect(doubt).toMatchObject({
      outcome: 'cantTell',
      level: 'warning',
      message: 'shelter.placesUnknown',
      data: { missing: { keys: [`tank.shelters.${field}`] } },
      when: null,
    });
  });

  it('needs of one sort add up, over species and lines', () => {
    const records = [needing(place('cave')), needing(place('cave'), {}, 'duo-alter')];
    const residents = [resident('unus-primus', 10, { count: 2 }), resident('duo-alter', 10)];
    expect(verdict({ shelters: { caves: 3 } }, records, residents)).toBe('passed');
    expect(found({ shelters: { caves: 2 } }, records, residents).findings[0]).toMatchObject({
      key: 'shelter:cave=duo-alter,cave=unus-primus',
      data: { places: { value: 3 }, lacking: { value: 1 } },
    });
  });

  it('what can do without counts only towards a note', () => {
    const records = [needing(place('hole')), needing(place('hole', true), {}, 'duo-alter')];
    const residents = [resident('unus-primus', 10), resident('duo-alter', 10)];
    expect(verdict({ shelters: { holes: 0 } }, records, residents)).toBe('failed warning shelter.tooFew');
    expect(verdict({ shelters: { holes: 1 } }, records, residents)).toBe('failed note shelter.couldUse');
    expect(verdict({ shelters: { holes: 2 } }, records, residents)).toBe('passed');
    expect(verdict({}, records.slice(1), residents.slice(1))).toBe('cantTell note shelter.placesUnknown');
  });

  it('a bonded pair shares one', () => {
    const pair = needing(place('cave'), { conduct: { company: { kind: 'pair', basis: 'practice' } } });
    const two = [resident('unus-primus', 10), resident('unus-primus', 9, { id: 'other' })];
    expect(verdict({ shelters: { caves: 1 } }, [pair], two)).toBe('passed');
    expect(verdict({ shelters: { caves: 1 } }, [pair], [resident('unus-primus', 10, { count: 3 })])).toBe('failed warning shelter.tooFew');
  });

  it('burrow-mates share one burrow, but no cave', () => {
    const mate: Needs['partners'] = [{ species: 'duo-alter', kind: 'burrow-mate', optional: true, basis: 'practice' }];
    const residents = [resident('unus-primus', 10), resident('duo-alter', 4)];
    const with_ = (kind: 'burrow' | 'cave') => [
      needing({ ...place(kind), partners: mate }),
      needing(place(kind), { form: 'shrimp' }, 'duo-alter'),
    ];
    expect(verdict({ shelters: { burrows: 1 } }, with_('burrow'), residents)).toBe('passed');
    expect(verdict({ shelters: { caves: 1 } }, with_('cave'), residents)).toBe('failed warning shelter.tooFew');
    expect(
      verdict({ shelters: { burrows: 1 } }, with_('burrow'), [resident('unus-primus', 10, { count: 2 }), resident('duo-alter', 4)]),
    ).toBe('failed warning shelter.tooFew');
  });

  it('only what is in the tank at a time counts, and the day is told', () => {
    const records = [needing(place('cave')), needing(place('cave'), {}, 'duo-alter')];
    const introductions = [{ date: '2027-04-01', animals: [newcomer('duo-alter', 10)] }];
    expect(found({ shelters: { caves: 1 } }, records, undefined, introductions).findings[0]).toMatchObject({
      message: 'shelter.tooFew',
      when: '2027-04-01',
    });
    const events = [{ kind: 'animal-removed' as const, date: '2027-03-20', animal: 'unus-primus' }];
    const left = checkBy(
      shelter,
      situationWith({ tank: { ...TANK, shelters: { caves: 1 } }, residents: [resident('unus-primus', 10)], introductions, events }),
      records,
    );
    expect(onlyVerdict(left)).toBe('passed');
  });
});

describe('partners', () => {
  const partners = (optional: boolean, kind: 'host' | 'guest' | 'burrow-mate' = 'host'): Needs => ({
    partners: [
      { species: 'duo-alter', kind, optional, basis: 'practice' },
      { species: 'tres-primus', kind, optional, basis: 'practice' },
    ],
  });
  const others = [recordWith('duo-alter'), recordWith('tres-primus')];
  const guest = needing(partners(false));

  it('any one of a sort will do', () => {
    for (const mate of ['duo-alter', 'tres-primus']) {
      expect(verdict({}, [guest, ...others], [resident('unus-primus', 4), resident(mate, 10)])).toBe('passed');
    }
  });

  it('that it cannot do without must be there', () => {
    expect(found({}, [guest, ...others]).findings[0]).toMatchObject({
      key: 'shelter:lodger=unus-primus',
      outcome: 'failed',
      level: 'warning',
      message: 'shelter.partnerMissing',
      data: { kind: { keys: ['host'] }, partner: { species: 'duo-alter' }, others: { value: 1 } },
      when: '2027-03-01',
    });
  });

  it('by the day on which it comes in', () => {
    const on = (date: string, species: string) => ({ date, animals: [newcomer(species, 10)] });
    const [own, hosts] = [on('2027-04-01', 'unus-primus'), on('2027-04-11', 'duo-alter')];
    expect(verdict({}, [guest, ...others], [], [on('2027-03-11', 'duo-alter'), own])).toBe('passed');
    expect(found({}, [guest, ...others], [], [own, hosts]).findings[0]).toMatchObject({
      when: '2027-04-01',
      data: { comes: { date: '2027-04-11' } },
    });
  });

  it('and stay as long', () => {
    const events = [{ kind: 'animal-removed' as const, date: '2027-05-01', animal: 'duo-alter' }];
    const checked = checkBy(shelter, situationWith({ residents: [resident('unus-primus', 4), resident('duo-alter', 10)], events }), [
      guest,
      ...others,
    ]);
    expect(checked.findings[0]).toMatchObject({ message: 'shelter.partnerMissing', when: '2027-05-01' });
  });

  it('that it can do without are noted, save for guests', () => {
    expect(found({}, [needing(partners(true)), ...others]).findings.map(verdictOf)).toEqual(['failed note shelter.partnerWelcome']);
    expect(found({}, [needing(partners(true, 'burrow-mate')), ...others]).findings[0]).toMatchObject({
      key: 'shelter:burrow-mate=unus-primus',
      level: 'note',
    });
    expect(found({}, [needing(partners(true, 'guest')), ...others]).findings).toEqual([]);
    expect(found({}, [needing(partners(false, 'guest')), ...others]).findings[0]).toMatchObject({
      key: 'shelter:host=unus-primus',
      level: 'warning',
    });
  });
});

it('what the keeper has accepted stays, marked', () => {
  const settings = { accepted: [{ key: 'shelter:cave=unus-primus', reason: 'it lies under the overflow' }] };
  const checked = checkBy(
    shelter,
    situationWith({ tank: { ...TANK, shelters: { caves: 0 } }, residents: [resident('unus-primus', 10)], settings }),
    [needing(place('cave'))],
  );
  expect(checked.findings[0]).toMatchObject({ accepted: 'it lies under the overflow' });
});

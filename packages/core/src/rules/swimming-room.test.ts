import type { Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { checkBy, exact, type Loose, onlyVerdict, recordWith, resident, situationWith, TANK } from '../../tests/support/scene.js';
import { swimmingRoom } from './swimming-room.js';

type Activity = 'roams' | 'cruises' | 'perches' | 'crawls' | 'fixed';

const ofLength = (adultCm: number, activity: Activity | 'untold' = 'roams', adult: object = exact(adultCm, 'cm')): SpeciesRecord =>
  recordWith('unus-primus', {
    size: { captiveAdult: adult as never },
    needs: activity === 'untold' ? {} : { activity: { value: activity, basis: 'practice' } },
  });

/** Water and width enough for anything, so that length decides. */
const WIDE: Loose<Situation['tank']> = { water: { value: 2000, unit: 'L' }, width: { value: 60, unit: 'cm' } };

const inTank = (tank: Loose<Situation['tank']> = {}, settings: Situation['settings'] = {}): Situation =>
  situationWith({ tank: { ...TANK, ...tank } as Situation['tank'], residents: [resident('unus-primus', 5)], settings });

describe('swimming-room', () => {
  // 120 cm of length, 45 cm of width, 240 L: by length 24, 20 and 17.14 cm for those that perch, cruise and roam.
  it.each([
    ['perches', 20, 'passed'],
    ['perches', 24.1, 'failed warning swimming-room.tooSmall'],
    ['cruises', 19, 'passed'],
    ['cruises', 20.1, 'failed warning swimming-room.tooSmall'],
    ['roams', 17.1, 'passed'],
    ['roams', 17.2, 'failed warning swimming-room.tooSmall'],
    ['roams', 28.5, 'failed warning swimming-room.tooSmall'],
    ['roams', 28.6, 'failed error swimming-room.tooSmall'],
    ['crawls', 100, 'inapplicable'],
    ['fixed', 100, 'inapplicable'],
  ] as const)('an adult that %s of %f cm: %s', (activity, adultCm, verdict) => {
    expect(onlyVerdict(checkBy(swimmingRoom, inTank(WIDE), [ofLength(adultCm, activity)]))).toBe(verdict);
  });

  it('tells what the adult wants, what the tank has, and which is tightest', () => {
    // 20 cm: 7 x 20 = 140 cm long, 40 cm wide, 140 x 40 x 40 / 1000 = 224 L; 120 / 140 = 0.857 is the smallest share.
    const [finding] = checkBy(swimmingRoom, inTank(), [ofLength(20)]).findings;
    expect(finding).toMatchObject({
      key: 'swimming-room:animal=unus-primus',
      when: null,
      data: {
        adultLength: { value: 20, unit: 'cm' },
        needLength: { value: 140, unit: 'cm' },
        needWidth: { value: 40, unit: 'cm' },
        needWater: { value: 224, unit: 'L' },
        tankLength: { value: 120, unit: 'cm' },
        tankWidth: { value: 45, unit: 'cm' },
        tankWater: { value: 240, unit: 'L' },
        tightest: { keys: ['length'] },
      },
    });
  });

  it.each([
    ['width', { width: { value: 20, unit: 'cm' } }],
    ['water', { water: { value: 30, unit: 'L' } }],
  ] as const)('%s can be what is tightest', (tightest, tank) => {
    const [finding] = checkBy(swimmingRoom, inTank(tank), [ofLength(15)]).findings;
    expect(finding?.data.tightest).toEqual({ keys: [tightest] });
  });

  it('an adult that may grow longer than the tank bears leaves it open, at the level it would have', () => {
    const bandTo = (high: number): object => ({ value: 15, low: 14, high, unit: 'cm', basis: 'practice' });
    // 120 / (7 x 18) = 0.952; 120 / (7 x 29) = 0.591, under 0.6.
    const mild = checkBy(swimmingRoom, inTank(WIDE), [ofLength(15, 'roams', bandTo(18))]);
    expect(onlyVerdict(mild)).toBe('cantTell warning swimming-room.mayBeTooSmall');
    expect(mild.findings[0]?.data).toMatchObject({ settle: { keys: ['size.captiveAdult'] }, adultLengthAtMost: { value: 18, unit: 'cm' } });
    const grave = checkBy(swimmingRoom, inTank(WIDE), [ofLength(15, 'roams', bandTo(29))]);
    expect(onlyVerdict(grave)).toBe('cantTell error swimming-room.mayBeTooSmall');
  });

  it('a tank of uncertain length is what would have to be measured', () => {
    const [finding] = checkBy(swimmingRoom, inTank({ length: { value: 120, low: 100, high: 140, unit: 'cm' } }), [ofLength(16)]).findings;
    expect(finding?.data.settle).toEqual({ keys: ['tank.length'] });
  });

  it.each([
    ['needs.activity', ofLength(10, 'untold'), {}],
    ['tank.length', ofLength(10), { length: undefined }],
    ['tank.width', ofLength(10), { width: undefined }],
    ['size.captiveAdult', recordWith('unus-primus', { size: {}, growth: {} }), {}],
  ])('cannot tell without %s, and says so', (field, record, tank) => {
    const checked = checkBy(swimmingRoom, inTank(tank), [record]);
    expect(onlyVerdict(checked)).toBe('cantTell error swimming-room.unknown');
    expect(checked.findings[0]?.data.missing).toEqual({ keys: [field] });
  });

  it('nothing need be known of an animal that does not swim', () => {
    expect(
      onlyVerdict(
        checkBy(swimmingRoom, inTank({ length: undefined }), [
          recordWith('unus-primus', { size: {}, growth: {}, needs: { activity: { value: 'fixed', basis: 'practice' } } }),
        ]),
      ),
    ).toBe('inapplicable');
  });

  it('every threshold is a setting', () => {
    const set = (thresholds: Record<string, number>): Situation['settings'] => ({ thresholds: { 'swimming-room': thresholds } });
    const verdict = (thresholds: Record<string, number>, activity: Activity = 'roams'): string =>
      onlyVerdict(checkBy(swimmingRoom, inTank({}, set(thresholds)), [ofLength(16, activity)]));
    expect(verdict({})).toBe('passed');
    expect(verdict({ roamers: 8 })).toBe('failed warning swimming-room.tooSmall');
    expect(verdict({ cruisers: 8 }, 'cruises')).toBe('failed warning swimming-room.tooSmall');
    expect(verdict({ perchers: 8 }, 'perches')).toBe('failed warning swimming-room.tooSmall');
    expect(verdict({ width: 3 })).toBe('failed warning swimming-room.tooSmall');
    expect(verdict({ height: 5 })).toBe('failed warning swimming-room.tooSmall');
    expect(verdict({ roamers: 8, errorShare: 0.95 })).toBe('failed error swimming-room.tooSmall');
  });
});

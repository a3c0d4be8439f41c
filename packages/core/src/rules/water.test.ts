import type { SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { checkBy, newcomer, onlyVerdict, range, recordWith, resident, situationWith, TANK, verdictOf } from '../../tests/support/scene.js';
import { water } from './water.js';

type Needs = NonNullable<SpeciesRecord['needs']>;

const wants = (low: number, high: number, more: Needs = {}, id = 'unus-primus'): SpeciesRecord =>
  recordWith(id, { needs: { temperature: range(low, high, 'Cel'), salinity: range(32, 37, '1'), ...more } });

const alone = situationWith({ residents: [resident('unus-primus', 10)] });

describe('water for one animal', () => {
  // The tank swings from 25 to 26 degrees; half a degree outside is slack.
  it.each([
    [24, 28, 'passed'],
    [25.5, 28, 'passed'],
    [25.6, 28, 'failed warning water.temperature'],
    [22, 25.5, 'passed'],
    [22, 25.4, 'failed warning water.temperature'],
  ])('one that wants %f to %f degrees: %s', (low, high, verdict) => {
    expect(onlyVerdict(checkBy(water, alone, [wants(low, high)]))).toBe(verdict);
  });

  it('outside what it survives it is an error', () => {
    const limits = (high: number): Needs => ({ temperatureLimits: range(10, high, 'Cel') });
    const [finding] = checkBy(water, alone, [wants(12, 20, limits(25.9))]).findings;
    expect(finding).toMatchObject({
      key: 'water:temperature=unus-primus',
      outcome: 'failed',
      level: 'error',
      message: 'water.temperature',
      when: null,
      data: {
        wantsLow: { value: 12, unit: 'Cel' },
        wantsHigh: { value: 20, unit: 'Cel' },
        meetsLow: { value: 25, unit: 'Cel' },
        meetsHigh: { value: 26, unit: 'Cel' },
      },
    });
    expect(onlyVerdict(checkBy(water, alone, [wants(12, 20, limits(26))]))).toBe('failed warning water.temperature');
  });

  it('salinity and pH have no slack', () => {
    const record = wants(24, 28, { salinity: range(34.6, 36, '1'), acidity: range(8.3, 8.5, '[pH]') });
    const situation = situationWith({ ...alone, tank: { ...TANK, acidity: { value: 8.2, unit: '[pH]' } } });
    expect(checkBy(water, situation, [record]).findings.map(verdictOf).sort()).toEqual([
      'failed warning water.acidity',
      'failed warning water.salinity',
    ]);
  });

  it.each(['temperature', 'salinity', 'acidity'] as const)('cannot tell without the %s of the tank, and says so', (property) => {
    const { [property]: _, ...tank } = { ...TANK, acidity: { value: 8.2, unit: '[pH]' as const } };
    const checked = checkBy(water, situationWith({ ...alone, tank }), [wants(24, 28, { acidity: range(8, 8.4, '[pH]') })]);
    expect(onlyVerdict(checked)).toBe(`cantTell warning water.${property}Unknown`);
    expect(checked.findings[0]?.data.missing).toEqual({ keys: [`tank.${property}`] });
  });

  it.each(['temperature', 'salinity'] as const)('cannot tell without the %s the species wants, and says so', (property) => {
    const { [property]: _, ...needs } = wants(24, 28).needs ?? {};
    const checked = checkBy(water, alone, [recordWith('unus-primus', { needs })]);
    expect(onlyVerdict(checked)).toBe('cantTell warning water.needUnknown');
    expect(checked.findings[0]?.data.missing).toEqual({ keys: [`needs.${property}`] });
  });

  it('asks for no pH where the record has none', () => {
    expect(checkBy(water, alone, [wants(24, 28)]).summary.rules.water).toMatchObject({ passed: 2, cantTell: 0 });
  });

  it('slack is a setting', () => {
    const settings = { thresholds: { water: { slackCel: 0 } } };
    expect(onlyVerdict(checkBy(water, situationWith({ ...alone, settings }), [wants(25.1, 28)]))).toBe('failed warning water.temperature');
  });

  it('a limit that is met exactly stays met in degrees Fahrenheit', () => {
    // 24.1 degrees Celsius are 75.38 Fahrenheit: back in Celsius they lie half a degree and the sixteenth digit below 24.6.
    for (const temperature of [
      { value: 24.1, unit: 'Cel' as const },
      { value: 75.38, unit: '[degF]' as const },
    ]) {
      expect(onlyVerdict(checkBy(water, situationWith({ ...alone, tank: { ...TANK, temperature } }), [wants(24.6, 25.6)]))).toBe('passed');
    }
  });
});

describe('water for two', () => {
  const both = situationWith({
    residents: [resident('unus-primus', 10)],
    introductions: [{ date: '2027-04-01', animals: [newcomer('duo-primus', 10)] }],
  });
  const pairOnly = (records: readonly SpeciesRecord[], situation = both): string[] =>
    checkBy(water, situation, records)
      .findings.filter(({ subjects }) => subjects.length === 2)
      .map(verdictOf);

  it.each([
    [22, 25, 25.5, 28, []],
    [22, 24.9, 25.5, 28, ['failed warning water.noCommonTemperature']],
    [25.5, 28, 22, 24.9, ['failed warning water.noCommonTemperature']],
  ])('%f to %f and %f to %f degrees: %j', (low, high, otherLow, otherHigh, verdicts) => {
    expect(pairOnly([wants(low, high), wants(otherLow, otherHigh, {}, 'duo-primus')])).toEqual(verdicts);
  });

  it('an error where no temperature exists that both survive', () => {
    const cold = wants(10, 15, { temperatureLimits: range(5, 20, 'Cel') });
    const warm = (least: number): SpeciesRecord => wants(25, 28, { temperatureLimits: range(least, 32, 'Cel') }, 'duo-primus');
    expect(pairOnly([cold, warm(20.1)])).toEqual(['failed error water.noCommonTemperature']);
    expect(pairOnly([cold, warm(20)])).toEqual(['failed warning water.noCommonTemperature']);
    const [finding] = checkBy(water, both, [cold, warm(20)]).findings.filter(({ subjects }) => subjects.length === 2);
    expect(finding?.key).toBe('water:animal=duo-primus,animal=unus-primus');
  });

  it('nothing is said of two that never meet', () => {
    const events = [{ kind: 'animal-removed' as const, date: '2027-03-20', animal: 'unus-primus' }];
    const records = [wants(10, 15), wants(25, 28, {}, 'duo-primus')];
    expect(pairOnly(records)).toHaveLength(1);
    expect(pairOnly(records, { ...both, events })).toEqual([]);
  });

  it('a horizon that ends before they meet does not make it safe', () => {
    expect(pairOnly([wants(10, 15), wants(25, 28, {}, 'duo-primus')], { ...both, settings: { horizonDays: 7 } })).toHaveLength(1);
  });
});

/** Whether animals stay in the tank: design section 5, `escape`. */
import type { Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import {
  checkBy,
  exact,
  type Loose,
  newcomer,
  onlyVerdict,
  recordWith,
  resident,
  situationWith,
  TANK,
  verdictOf,
} from '../../../tests/support/scene.js';
import { escaping } from './escape.js';

type Needs = NonNullable<SpeciesRecord['needs']>;
type Tank = Partial<Situation['tank']>;

const said = <Value>(value: Value): { value: Value; basis: 'practice' } => ({ value, basis: 'practice' });

/** A fish of 10 cm, 8 cm without its tail, and 2 cm deep. */
const leaving = (value: 'jumps' | 'climbs' | 'stays' | undefined, more: Partial<SpeciesRecord> = {}): SpeciesRecord =>
  recordWith('unus-primus', {
    shape: { bodyDepth: exact(0.25, '1'), gapeClass: said('engulfs') },
    conduct: value === undefined ? {} : { escapes: said(value) },
    ...more,
  });

const found = (tank: Tank, record: SpeciesRecord, more: Loose<Situation> = {}) =>
  checkBy(escaping, situationWith({ tank: { ...TANK, ...tank }, residents: [resident('unus-primus', 10)], ...more }), [record]);
const verdict = (...args: Parameters<typeof found>): string => onlyVerdict(found(...args));
const cm = (value: number) => ({ value, unit: 'cm' as const });

describe('over the top', () => {
  it('what jumps or climbs leaves an open tank', () => {
    expect(found({ cover: 'open' }, leaving('jumps')).findings[0]).toMatchObject({
      key: 'escape:escapee=unus-primus',
      outcome: 'failed',
      level: 'warning',
      message: 'escape.open',
      data: { way: { keys: ['jumps'] } },
    });
    expect(found({ cover: 'open' }, leaving('climbs')).findings[0]).toMatchObject({
      message: 'escape.open',
      data: { way: { keys: ['climbs'] } },
    });
    expect(verdict({ cover: 'open' }, leaving('stays'))).toBe('nothing judged');
  });

  it('a cover without a gap keeps them', () => {
    for (const cover of ['net', 'lid'] as const)
      for (const way of ['jumps', 'climbs', undefined] as const) expect(verdict({ cover }, leaving(way))).toBe('passed');
  });

  it('what jumps leaves through a gap that its body passes', () => {
    expect(found({ cover: 'lid', gap: cm(2) }, leaving('jumps')).findings[0]).toMatchObject({
      outcome: 'failed',
      level: 'warning',
      message: 'escape.gap',
      data: { gap: { value: 2 }, bodyDepth: { value: 2 } },
    });
    expect(verdict({ cover: 'lid', gap: cm(1.9) }, leaving('jumps'))).toBe('passed');
  });

  it('the body counts on the day it comes in, when it is thinnest', () => {
    const growing = leaving('jumps', { growth: { asymptoticLength: exact(30, 'cm'), rate: exact(1, '/a') } });
    const introductions = [{ date: '2028-03-01', animals: [newcomer('unus-primus', 5)] }];
    expect(found({ cover: 'net', gap: cm(1) }, growing, { residents: [], introductions }).findings[0]?.data.bodyDepth).toEqual({
      value: 1,
      unit: 'cm',
    });
    // Measured a year ago, it has grown since.
    const residents = [resident('unus-primus', 5, { measuredOn: '2026-03-01' })];
    expect(verdict({ cover: 'net', gap: cm(1) }, growing, { residents })).toBe('passed');
  });

  it('what climbs leaves through any gap', () => {
    expect(found({ cover: 'lid', gap: cm(0.5) }, leaving('climbs')).findings[0]).toMatchObject({
      outcome: 'failed',
      level: 'warning',
      message: 'escape.anyGap',
      data: { gap: { value: 0.5 } },
    });
  });

  it('figures too rough for the gap leave a doubt', () => {
    const rough = leaving('jumps', { shape: { bodyDepth: { value: 0.25, low: 0.2, high: 0.3, unit: '1', basis: 'recalled' } } });
    expect(found({ cover: 'lid', gap: cm(1.7) }, rough).findings[0]).toMatchObject({
      outcome: 'cantTell',
      level: 'warning',
      message: 'escape.mayFit',
      data: { settle: { keys: ['shape.bodyDepth'] } },
    });
    expect(verdict({ cover: 'lid', gap: cm(1.5) }, rough)).toBe('passed');
  });

  it('what is missing is named', () => {
    const missing = (...args: Parameters<typeof found>) => {
      const [finding, ...more] = found(...args).findings;
      expect(more).toEqual([]);
      expect(finding).toMatchObject({ outcome: 'cantTell', level: 'warning', message: 'escape.unknown' });
      return finding?.data.missing?.keys;
    };
    expect(missing({}, leaving('jumps'))).toEqual(['tank.cover']);
    expect(missing({}, leaving(undefined))).toEqual(['conduct.escapes', 'tank.cover']);
    expect(missing({ cover: 'open' }, leaving(undefined))).toEqual(['conduct.escapes']);
    expect(missing({ cover: 'lid', gap: cm(3) }, leaving(undefined))).toEqual(['conduct.escapes']);
    expect(missing({ cover: 'lid', gap: cm(1.99) }, leaving(undefined, { form: 'crab' }))).toEqual(['conduct.escapes']);
    expect(missing({ cover: 'lid', gap: cm(1) }, leaving('jumps', { shape: {} }))).toEqual(['shape.bodyDepth']);
    expect(missing({ cover: 'lid', gap: cm(1) }, leaving('jumps'), { residents: [{ id: 'unus-primus', species: 'unus-primus' }] })).toEqual(
      ['length'],
    );
  });

  it('a fish too deep for the gap may still wriggle through where its record is silent; a gap of nothing is none', () => {
    expect(verdict({ cover: 'lid', gap: cm(1.5) }, leaving(undefined))).toBe('cantTell warning escape.unknown');
    expect(verdict({ cover: 'lid', gap: cm(0) }, leaving('climbs'))).toBe('passed');
  });

  it('a record silent on it leaves no doubt of animals that hardly ever leave', () => {
    for (const form of ['snail', 'urchin', 'shrimp'] as const) expect(verdict({}, leaving(undefined, { form }))).toBe('nothing judged');
  });

  it('a tight lid that is promised counts for newcomers, and for residents where nothing else is told', () => {
    const keeper: Situation['keeper'] = { careTier: 1, provisions: ['tight-lid'] };
    const coming = { keeper, residents: [], introductions: [{ date: '2027-03-11', animals: [newcomer('unus-primus', 10)] }] };
    expect(verdict({ cover: 'open' }, leaving('jumps'), coming)).toBe('passed');
    expect(verdict({}, leaving('jumps'), { keeper })).toBe('passed');
    expect(verdict({ cover: 'open' }, leaving('jumps'), { keeper })).toBe('failed warning escape.open');
  });
});

describe('pumps', () => {
  const needing = (needs: Needs, form: SpeciesRecord['form'] = 'fish') => leaving('stays', { needs, form });

  it('catch anemones, what cannot swim against a flow, and what creeps', () => {
    expect(found({ pumps: 'unguarded' }, needing({}, 'anemone')).findings[0]).toMatchObject({
      key: 'escape:caught=unus-primus',
      outcome: 'failed',
      level: 'warning',
      message: 'escape.pumps',
    });
    expect(verdict({ pumps: 'unguarded' }, needing({ flow: said('gentle') }))).toBe('failed warning escape.pumps');
    expect(verdict({ pumps: 'unguarded' }, needing({ activity: said('crawls') }, 'snail'))).toBe('failed note escape.pumps');
    expect(verdict({ pumps: 'unguarded' }, needing({ activity: said('fixed') }))).toBe('failed note escape.pumps');
    expect(verdict({ pumps: 'unguarded' }, needing({ activity: said('roams'), flow: said('strong') }))).toBe('nothing judged');
  });

  it('that are guarded catch nothing; of which nothing is told cannot be told', () => {
    expect(verdict({ pumps: 'guarded' }, needing({}, 'anemone'))).toBe('passed');
    expect(found({}, needing({}, 'anemone')).findings[0]).toMatchObject({
      outcome: 'cantTell',
      level: 'warning',
      message: 'escape.pumpsUnknown',
      data: { missing: { keys: ['tank.pumps'] } },
    });
    expect(verdict({}, needing({ activity: said('crawls') }, 'snail'))).toBe('cantTell note escape.pumpsUnknown');
  });
});

it('the top and the pumps are accepted apart', () => {
  const settings = { accepted: [{ key: 'escape:escapee=unus-primus', reason: 'the water stands low' }] };
  const { findings } = found({ cover: 'open', pumps: 'unguarded' }, leaving('jumps', { needs: { flow: said('gentle') } }), { settings });
  expect(findings.map((finding) => [verdictOf(finding), finding.accepted])).toEqual([
    ['failed warning escape.pumps', undefined],
    ['failed warning escape.open', 'the water stands low'],
  ]);
});

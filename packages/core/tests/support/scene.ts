import type { Finding, Newcomer, Resident, Situation, SpeciesRecord } from '@commensal/schema';
import { check, type Checked } from '../../src/check/check.js';
import type { AnyRule, Rule } from '../../src/rules/rule.js';
import { libraryOf } from '../../src/stock/library.js';
import { stockOf } from '../../src/stock/stock-of.js';
import { inventedSituation, inventedSpecies } from './invented.js';

/** A figure without a band around it, so that a test can work with plain numbers. */
export const exact = <Unit extends string>(value: number, unit: Unit): Figure<Unit> => ({
  value,
  low: value,
  high: value,
  unit,
  basis: 'practice',
});

/** A range. */
export const range = <Unit extends string>(low: number, high: number, unit: Unit): Figure<Unit> => ({ low, high, unit, basis: 'practice' });

interface Figure<Unit> {
  value?: number;
  low: number;
  high: number;
  unit: Unit;
  basis: 'practice';
}

const said = <Value>(value: Value): { value: Value; basis: 'practice' } => ({ value, basis: 'practice' });

/** Peaceful to everyone. */
export const PEACEFUL = { ownKind: 0, genus: 0, kin: 0, others: 0, newcomers: 0, basis: 'practice' } as const;

/**
 * A record that leaves nothing open and on which no rule finds anything: a perching fish of 10 cm, fully grown when sold, that
 * scrapes its food and claims no rock. Whatever is passed in stands in place of the part of that name.
 */
export function recordWith(id: string, more: Partial<SpeciesRecord> = {}): SpeciesRecord {
  return inventedSpecies(id, {
    size: { captiveAdult: exact(10, 'cm'), entry: exact(10, 'cm'), totalPerStandard: exact(1.25, '1') },
    growth: { asymptoticLength: exact(10, 'cm'), rate: exact(0.5, '/a') },
    shape: { bodyDepth: exact(0.6, '1'), lowerJaw: exact(0.25, '1'), gapeClass: said('notGapeLimited') },
    feeding: { fishEating: said('noneRecorded'), eats: { foods: ['algae'], basis: 'practice' } },
    conduct: {
      pugnacity: PEACEFUL,
      rockClaim: exact(0, 'L'),
      wayOfLiving: said('perches-on-rock'),
      company: { kind: 'any', basis: 'practice' },
    },
    needs: {
      careTier: said(1),
      temperature: range(24, 28, 'Cel'),
      temperatureLimits: range(20, 32, 'Cel'),
      salinity: range(32, 37, '1'),
      activity: said('perches'),
    },
    introduction: said('ordinary'),
    ...more,
  });
}

/** A swallower by trade: its mouth passes a body of 0.24 of its own total length. */
export const swallower = (id: string, more: Partial<SpeciesRecord> = {}): SpeciesRecord =>
  recordWith(id, {
    shape: { bodyDepth: exact(0.6, '1'), gapeWidth: exact(0.3, '1'), gapeClass: said('engulfs') },
    feeding: { fishEating: said('habitual'), eats: { foods: ['fishes'], basis: 'practice' } },
    ...more,
  });

/** Parts that may be left out, also by saying undefined. */
export type Loose<Whole> = { readonly [Name in keyof Whole]?: Whole[Name] | undefined };

/** A tank with nothing left open, on 2027-03-01, of a keeper of tier 1. */
export const situationWith = (more: Loose<Situation> = {}): Situation =>
  inventedSituation({ keeper: { careTier: 1 }, tank: TANK, ...more } as Situation);

export const TANK: Situation['tank'] = {
  water: { value: 240, unit: 'L' },
  length: { value: 120, unit: 'cm' },
  width: { value: 45, unit: 'cm' },
  rock: { envelope: { value: 20, unit: 'L' } },
  temperature: { low: 25, high: 26, unit: 'Cel' },
  salinity: { value: 34.5, unit: '1' },
};

/** A resident of a length in cm; it goes by its species unless it is given an id. */
export const resident = (species: string, lengthCm: number, more: Partial<Resident> = {}): Resident => ({
  id: species,
  species,
  length: { value: lengthCm, unit: 'cm' },
  ...more,
});

/** A newcomer of a length in cm. */
export const newcomer = (species: string, lengthCm: number, more: Partial<Newcomer> = {}): Newcomer => ({
  species,
  length: { value: lengthCm, unit: 'cm' },
  ...more,
});

/** What check finds by one rule, or several. */
export function checkBy(
  rules: Rule<never, never> | AnyRule | readonly AnyRule[],
  situation: Situation,
  records: readonly SpeciesRecord[],
): Checked {
  const { stock, problems } = stockOf(situation, libraryOf(records));
  if (problems.length > 0) throw new Error(`checkBy: expected every species, received ${JSON.stringify(problems)}`);
  return check(stock, (Array.isArray(rules) ? rules : [rules]) as readonly AnyRule[]);
}

/** "failed error gape.fitsNow" and so on: what a finding comes to. */
export const verdictOf = ({ outcome, level, message }: Finding): string => `${outcome} ${level} ${message}`;

/** The verdict of the only finding; "passed", or "inapplicable", where there is none. */
export function onlyVerdict({ findings, summary }: Checked): string {
  if (findings.length > 1)
    throw new Error(`onlyVerdict: expected one finding, received ${findings.map((finding) => finding.key).join(' ')}`);
  const [finding] = findings;
  if (finding !== undefined) return verdictOf(finding);
  const counts = Object.values(summary.rules);
  return counts.some((count) => count.passed > 0)
    ? 'passed'
    : counts.some((count) => count.inapplicable > 0)
      ? 'inapplicable'
      : 'nothing judged';
}

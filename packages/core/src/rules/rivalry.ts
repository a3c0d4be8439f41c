import type { Datum } from '@commensal/schema';
import type { Stock, StockAnimal } from '../stock/stock.js';
import { type Attack, attackOf, type Harmed, harmDefaults, harmOf, type HarmOption, type HarmOptions } from './attack.js';
import { type Companionship, companionship } from './companions.js';
import { lengthOn } from './gape/index.js';
import { LEVELS } from './levels.js';
import { meetingOf } from './meeting.js';
import { isSettledAnew, CONTEST_SOURCES, sameSort } from './odds.js';
import { byKindAndLength } from './equals.js';
import { INAPPLICABLE, PASSED, type Rule, type Telling, type Verdict } from './rule.js';
import { type StrengthBook, strengthBook } from './strength.js';

/** One judgement: two animals, or the animals of one line among themselves. */
export interface RivalryMeasure {
  readonly one: StockAnimal;
  /** The same as `one` for a line among itself. */
  readonly other: StockAnimal;
  readonly companionship: Companionship;
  /** They are too many of their kind or of the wrong sexes, and `company` says so. */
  readonly toldByCompany: boolean;
  /** Day on which they meet. */
  readonly fromDay: number;
  /** What each does to the other, when they meet and at the last day looked at. Those that keep the peace are left out. */
  readonly attacks: readonly Attack[];
}

/** Will two animals that live together come to harm by fighting? The rock that one needs as a refuge is what the other leaves of it. */
export const rivalry: Rule<RivalryMeasure, HarmOption> = {
  id: 'rivalry',
  question: 'Will these two fight until one of them comes to harm?',
  scope: 'pair',
  planning: 'pair',
  monotone: { water: 'neither', rock: 'better', fewerAnimals: 'better', delay: 'either' },
  needs: [
    'conduct.pugnacity',
    'conduct.resembles',
    'conduct.company',
    'conduct.rockClaim',
    'kinGroup',
    'size.entry',
    'size.weight',
    'shape.bodyDepth',
    'growth.asymptoticLength',
    'growth.rate',
    'tank.rock',
  ],
  sources: CONTEST_SOURCES,
  defaults: harmDefaults,

  measure(stock, options, each) {
    const strengths = strengthBook();
    const { animals } = stock;
    animals.forEach((one, index) => {
      if (one.count > 1) measurePair(stock, one, one, strengths, options, each);
      for (let at = index + 1; at < animals.length; at += 1) measurePair(stock, one, animals[at] as StockAnimal, strengths, options, each);
    });
  },

  judge(measure, options) {
    if (measure.companionship === 'bonded' || measure.toldByCompany) return INAPPLICABLE;
    return gravest(measure, options)?.verdict ?? PASSED;
  },

  tell(measure, _verdict, _stock, options) {
    return tellRivalry(measure, options);
  },
};

function measurePair(
  stock: Stock,
  one: StockAnimal,
  other: StockAnimal,
  strengths: StrengthBook,
  options: HarmOptions,
  each: (measure: RivalryMeasure) => void,
): void {
  if (!sameSort(one, other)) return;
  const span = spanOf(stock, one, other);
  if (span === undefined) return;
  const { from, until } = span;
  const kinship = companionship(stock, one, other);
  const toldByCompany = isToldByCompany(stock, one, other, kinship);
  const attacks =
    kinship === 'bonded' || toldByCompany || from > until ? [] : attacksBetween(stock, one, other, from, until, strengths, options);
  each({ one, other, companionship: kinship, toldByCompany, fromDay: from, attacks });
}

/** First and last day on which two that meet are looked at, the first beyond the last where a divider keeps them apart throughout; undefined where they never meet. */
export function spanOf(stock: Stock, one: StockAnimal, other: StockAnimal): { from: number; until: number } | undefined {
  const meeting =
    one === other ? { from: Math.max(stock.day, one.entryDay ?? stock.day), until: stock.horizonDay } : meetingOf(stock, one, other);
  if (meeting === undefined) return undefined;
  return { from: afterDivider(stock, meeting.from), until: Math.max(meeting.from, meeting.until) };
}

/** Whether `company` speaks of the two: where that rule is switched off it says nothing. */
export function isToldByCompany(stock: Stock, one: StockAnimal, other: StockAnimal, kinship: Companionship): boolean {
  const stays = one.leaveDay > stock.horizonDay && other.leaveDay > stock.horizonDay;
  return kinship === 'unfit' && stays && !stock.settings.off.includes('company');
}

/** A divider keeps them apart as long as it stands. */
function afterDivider(stock: Stock, day: number): number {
  let free = day;
  for (const { from, until } of stock.divided) if (from <= day && day <= until && until >= free) free = until + 1;
  return free;
}

function attacksBetween(
  stock: Stock,
  one: StockAnimal,
  other: StockAnimal,
  from: number,
  until: number,
  strengths: StrengthBook,
  options: HarmOptions,
): Attack[] {
  const attacks: Attack[] = [];
  const look = (aggressor: StockAnimal, target: StockAnimal, day: number): void => {
    const attack = attackOf(
      stock,
      aggressor,
      target,
      day,
      (late, early) => day === from && comesInto(stock, late, early),
      strengths,
      options,
    );
    if (attack !== undefined) attacks.push(attack);
  };
  for (const day of from === until ? [from] : [from, until]) {
    look(one, other, day);
    if (one !== other) look(other, one, day);
  }
  return attacks;
}

/** One comes into what the other already holds. */
export function comesInto(stock: Stock, late: StockAnimal, early: StockAnimal): boolean {
  if (late.role !== 'newcomer' || late.entryDay === undefined) return false;
  return (early.entryDay ?? Number.NEGATIVE_INFINITY) < late.entryDay && !isSettledAnew(stock, late.entryDay);
}

/** The gravest of what may happen, failures before doubts, then the soonest: the order in which attacks were looked at. */
function gravest({ one, other, attacks }: RivalryMeasure, options: HarmOptions): { attack: Attack; verdict: Verdict } | undefined {
  let worst: { attack: Attack; harmed: Harmed; rank: number } | undefined;
  for (const attack of attacks) {
    const harmed = harmOf(attack, options);
    if (harmed === undefined) continue;
    const rank = 2 * LEVELS.indexOf(harmed.level) + (harmed.outcome === 'failed' ? 1 : 0);
    if (worst === undefined || rank > worst.rank || (rank === worst.rank && isPlainer(attack, worst.attack)))
      worst = { attack, harmed, rank };
  }
  if (worst === undefined) return undefined;
  const { attack, harmed } = worst;
  return { attack, verdict: { outcome: harmed.outcome, level: harmed.level, message: messageOf(attack, harmed, one === other) } };
}

/** Of two attacks as grave on one day, the one by the fiercer animal, then by the stronger: not by who is named first. */
function isPlainer(one: Attack, other: Attack): boolean {
  if (one.day !== other.day) return false;
  if (one.treatment.atMost !== other.treatment.atMost) return one.treatment.atMost > other.treatment.atMost;
  // Chances that are equal may differ by rounding.
  const stronger = Math.round((one.odds.high - other.odds.high) * 1e9);
  if (stronger !== 0) return stronger > 0;
  if (one.treatment.toward !== other.treatment.toward) return one.treatment.toward < other.treatment.toward;
  return byKindAndLength(one.aggressor, other.aggressor, one.day) < 0;
}

function messageOf({ missing, refuge }: Attack, { outcome, harm }: Harmed, amongThem: boolean): string {
  if (outcome === 'cantTell')
    return missing.length > 0 || (harm === 'oneSided' && refuge.missing.length > 0) ? 'rivalry.unknown' : 'rivalry.mayHarm';
  if (amongThem) return 'rivalry.amongThem';
  if (harm === 'even') return 'rivalry.even';
  return harm === 'hunted' ? 'rivalry.hunted' : 'rivalry.noRefuge';
}

function tellRivalry(measure: RivalryMeasure, options: HarmOptions): Telling {
  const { one, other, fromDay } = measure;
  const { attack, verdict } = gravest(measure, options) ?? {};
  const subjects = one === other ? [{ id: one.id, role: 'rival' }] : [one, other].map(({ id }) => ({ id, role: 'rival' }));
  if (attack === undefined || verdict === undefined) return { subjects, data: {}, when: null, basis: 'recalled' };
  const { aggressor, target, day, treatment, odds, refuge, noShelter } = attack;
  const step = treatment.step ?? treatment.atMost;
  const missing = [...new Set([...attack.missing, ...(verdict.message === 'rivalry.unknown' ? refuge.missing : [])])];
  return {
    subjects,
    data: {
      aggressor: { animal: aggressor.id },
      target: { animal: target.id },
      toward: { keys: [treatment.toward] },
      step: { keys: [step >= options.kills ? 'kills' : step >= options.bites ? 'bites' : 'chases'] },
      ...lengthDatum('aggressorLength', aggressor, day),
      ...lengthDatum('targetLength', target, day),
      ...(Number.isNaN(odds.centre) ? {} : { wins: { value: Math.round(odds.centre * 10), unit: '1' } }),
      ...(Number.isNaN(refuge.leftL) ? {} : { left: litres(Math.max(0, refuge.leftL)), missingRock: litres(Math.max(0, -refuge.spareL)) }),
      ...(refuge.wantedL > 0 ? { wanted: litres(refuge.wantedL) } : {}),
      ...(noShelter === undefined ? {} : { shelter: { keys: [noShelter] } }),
      ...(one === other ? { count: { value: one.count, unit: '1' } } : {}),
      ...(day > fromDay ? { later: { keys: ['later'] } } : {}),
      ...(missing.length > 0 ? { missing: { keys: missing } } : {}),
      ...(verdict.message === 'rivalry.mayHarm' ? { settle: { keys: ['tank.rock'] } } : {}),
    },
    when: day,
    basis: attack.basis,
  };
}

const litres = (value: number): Datum => ({ value: Math.round(value * 10) / 10, unit: 'L' });

function lengthDatum(name: string, animal: StockAnimal, day: number): Record<string, Datum> {
  const cm = lengthOn(animal, day);
  return Number.isNaN(cm) ? {} : { [name]: { value: Math.round(cm * 10) / 10, unit: 'cm' } };
}

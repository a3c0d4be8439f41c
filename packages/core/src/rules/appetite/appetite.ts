import type { Basis, Datum, Level, Subject } from '@commensal/schema';
import { isoOf } from '../../quantity/days.js';
import { weakest } from '../../quantity/basis.js';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import { lengthOn } from '../gape/index.js';
import { lengthBook } from '../gape/lengths.js';
import { LEVELS, lower } from '../levels.js';
import { meetingOf } from '../meeting.js';
import { arePartners } from '../partners.js';
import { arrivalOf, comers } from '../presence.js';
import { PASSED, type Rule, type Telling, type Verdict } from '../rule.js';
import { type Aim, aimsAt, aimsAtKept, KEPT, type Kept } from './aims.js';
import { reachOf, type Side, sideOf } from './reach.js';

/** One judgement: an animal, and another that it goes for or something kept. */
export interface AppetiteMeasure {
  readonly actor: StockAnimal;
  /** Undefined where it is about something kept. */
  readonly victim: StockAnimal | undefined;
  /** What is kept: the one thing told of, or all that it may be where that is not known. */
  readonly kept: readonly Kept[];
  readonly fromDay: number;
  readonly untilDay: number;
  readonly threats: readonly Threat[];
  /** Fishes mostly spare those that clean them. */
  readonly spared: boolean;
}

/** An aim, and when the other is within its reach. */
export interface Threat extends Aim {
  /** First day, at the centre; Infinity when never up to the horizon. */
  readonly firstDay: number;
  /** First day on which it may be; Infinity when never. */
  readonly possibleDay: number;
}

/** Does one of these animals tear, crush, nip, eat or sting what else is kept? Design section 5. */
export const appetite: Rule<AppetiteMeasure, 'smallShare'> = {
  id: 'appetite',
  question: 'Does one of these animals eat, tear, crush, nip or sting another, or what else is kept?',
  scope: 'pair',
  planning: 'pair',
  longer: { worse: 'actor', better: 'victim' },
  monotone: { water: 'neither', rock: 'neither', fewerAnimals: 'better', delay: 'either' },
  needs: [
    'conduct.harms',
    'feeding.eats',
    'feeding.fishEating',
    'feeding.mode',
    'feeding.pace',
    'feeding.cleans',
    'shape.gapeClass',
    'needs.partners',
    'size.entry',
    'growth.asymptoticLength',
    'growth.rate',
    'tank.kept',
  ],
  sources: [],
  defaults: {
    smallShare: {
      value: 0.35,
      unit: '1',
      basis: 'practice',
      note: 'Fishes and shrimps up to this share of the length of the animal that goes for small ones count as small, where its record gives no share.',
    },
  },

  measure(stock, { smallShare }, each) {
    const sides = comers(stock).map(sideOf);
    for (const one of sides) {
      const { animal: actor } = one;
      for (const other of sides) {
        const { animal: victim } = other;
        // Its own kind is a matter of company; partners live together without harm.
        if (victim.kind.id === actor.kind.id) continue;
        const aims = aimsAt(actor.kind, victim.kind, smallShare);
        if (aims.length === 0 || arePartners(actor.kind, victim.kind)) continue;
        const together = meetingOf(stock, actor, victim);
        if (together !== undefined) each(pairOf(one, other, aims, together.from, together.until));
      }
      measureKept(stock, actor, each);
    }
  },

  judge(measure) {
    return gravest(measure).verdict;
  },

  tell(measure) {
    const { threat, verdict } = gravest(measure);
    return measure.victim === undefined ? tellKept(measure, threat, verdict) : tellPair(measure, measure.victim, threat, verdict);
  },
};

function pairOf(one: Side, other: Side, aims: readonly Aim[], from: number, until: number): AppetiteMeasure {
  const { animal: actor } = one;
  const { animal: victim } = other;
  return {
    actor,
    victim,
    kept: NOTHING,
    fromDay: from,
    untilDay: until,
    threats: aims.map((aim) => threatOf(aim, one, other, from, until)),
    // What crushes shrimps crushes those that clean as well.
    spared: victim.kind.record.feeding?.cleans?.value === true && actor.kind.form === 'fish' && aims.every(({ how }) => how !== 'crushes'),
  };
}

const NOTHING: readonly Kept[] = [];

/** Written out, not spread: a spread costs more than the arithmetic. */
function threatOf(
  { how, harm, often, upToShare, missing, missingOf, basis }: Aim,
  one: Side,
  other: Side,
  from: number,
  until: number,
): Threat {
  if (upToShare === undefined) return { how, harm, often, upToShare, missing, missingOf, basis, firstDay: from, possibleDay: from };
  const reach = reachOf(one, other, upToShare, from, until);
  // What is not known of the aim is named before what is not known of the lengths.
  const first = missing.length > 0 ? { missing, missingOf } : reach;
  return {
    how,
    harm,
    often,
    upToShare,
    missing: first.missing,
    missingOf: first.missingOf,
    basis,
    firstDay: reach.firstDay,
    possibleDay: reach.possibleDay,
  };
}

/** Something kept is told of by itself, so that it can be accepted by itself; what is not known, once for the animal. */
function measureKept(stock: Stock, actor: StockAnimal, each: (measure: AppetiteMeasure) => void): void {
  const { kept } = stock.tank;
  const from = arrivalOf(stock, actor);
  const base = { actor, victim: undefined, fromDay: from, untilDay: Math.max(from, stock.horizonDay), spared: false };
  const doubtful: Kept[] = [];
  const doubts: Threat[] = [];
  for (const thing of KEPT) {
    if (kept !== undefined && !kept.includes(thing)) continue;
    const threats = aimsAtKept(actor.kind, thing).map(
      (aim): Threat => ({
        ...aim,
        missing: kept === undefined ? [...aim.missing, 'tank.kept'] : aim.missing,
        firstDay: from,
        possibleDay: from,
      }),
    );
    if (threats.length === 0) continue;
    if (threats.some(({ missing }) => missing.length > 0)) {
      doubtful.push(thing);
      doubts.push(...threats);
    } else {
      each({ ...base, kept: [thing], threats });
    }
  }
  if (doubts.length > 0) each({ ...base, kept: doubtful, threats: doubts });
}

const LEVEL_OF: Readonly<Record<Aim['harm'], Readonly<Record<Aim['often'], Level>>>> = {
  kills: { 'as-a-rule': 'error', 'at-times': 'warning' },
  wounds: { 'as-a-rule': 'warning', 'at-times': 'note' },
  pesters: { 'as-a-rule': 'note', 'at-times': 'note' },
};

const OF_ANIMALS: Readonly<Record<Aim['harm'], string>> = {
  kills: 'appetite.kills',
  wounds: 'appetite.wounds',
  pesters: 'appetite.pesters',
};
const OF_KEPT: Readonly<Record<Aim['harm'], string>> = {
  kills: 'appetite.keptKills',
  wounds: 'appetite.keptWounds',
  pesters: 'appetite.keptPesters',
};

/** What a threat comes to. Cleaners are mostly spared: one level lower. */
export function verdictOn(
  { harm, often, missing, firstDay, possibleDay }: Threat,
  { victim, spared }: Pick<AppetiteMeasure, 'victim' | 'spared'>,
): Verdict {
  if (firstDay === Infinity && possibleDay === Infinity) return PASSED;
  const level = lower(LEVEL_OF[harm][often], spared ? 1 : 0);
  if (missing.length > 0)
    return { outcome: 'cantTell', level, message: victim === undefined ? unknownOfKept(missing) : 'appetite.unknown' };
  if (firstDay === Infinity) return { outcome: 'cantTell', level, message: 'appetite.mayReach' };
  return { outcome: 'failed', level, message: victim === undefined ? OF_KEPT[harm] : OF_ANIMALS[harm] };
}

const unknownOfKept = (missing: readonly string[]): string =>
  missing.includes('tank.kept') ? 'appetite.keptUntold' : 'appetite.keptUnknown';

interface Judged {
  readonly threat: Threat;
  readonly verdict: Verdict;
}

/** Of several threats the gravest counts; a failure before a doubt of its level, the earlier before the later. */
function gravest(measure: AppetiteMeasure): Judged {
  let most: Judged | undefined;
  for (const threat of measure.threats) {
    const next: Judged = { threat, verdict: verdictOn(threat, measure) };
    const more = most === undefined ? 1 : weightOf(next.verdict) - weightOf(most.verdict);
    if (most === undefined || more > 0 || (more === 0 && threat.firstDay < most.threat.firstDay)) most = next;
  }
  return most as Judged;
}

/** How much a verdict counts among those on the threats of one judgement. */
export const weightOf = ({ outcome, level }: Verdict): number =>
  outcome === 'passed' ? 0 : 1 + 2 * LEVELS.indexOf(level) + (outcome === 'failed' ? 1 : 0);

function addOftenAndHow(data: Record<string, Datum>, often: Aim['often'], how: Aim['how']): void {
  if (often === 'at-times') data.atTimes = { keys: [often] };
  if (how !== undefined) data.how = { keys: [how] };
}

const tenths = (value: number): Datum => ({ value: Math.round(value * 10) / 10, unit: 'cm' });

function tellPair(measure: AppetiteMeasure, victim: StockAnimal, threat: Threat, { outcome, message }: Verdict): Telling {
  const { actor, fromDay, untilDay, spared } = measure;
  const { how, harm, often, upToShare, missing, missingOf } = threat;
  const subjects: Subject[] = [
    { id: actor.id, role: 'actor' },
    { id: victim.id, role: 'victim' },
  ];
  const data: Record<string, Datum> = { harm: { keys: [harm] } };
  addOftenAndHow(data, often, how);
  if (spared) data.spared = { keys: ['cleaner'] };
  if (message === 'appetite.unknown') {
    data.missing = { keys: [...missing] };
    data.of = { animal: (missingOf === 'actor' ? actor : victim).id };
    return { subjects, data, when: null, basis: 'recalled' };
  }
  const day = outcome === 'failed' ? threat.firstDay : threat.possibleDay;
  if (upToShare !== undefined) addLengths(data, actor, victim, upToShare, day, untilDay, outcome === 'failed');
  if (day > fromDay) data.fromDay = { date: isoOf(day) };
  if (outcome === 'cantTell') {
    data.settle = { keys: ['growth'] };
    data.of = { animal: rougher(actor, victim, untilDay).id };
  }
  return {
    subjects,
    data,
    when: day,
    basis: upToShare === undefined ? threat.basis : weakest(threat.basis, basisOf(actor), basisOf(victim)),
  };
}

/** What an animal's length rests on. */
const basisOf = ({ lengthCm, kind }: StockAnimal): Basis => weakest(lengthCm?.basis ?? 'measured', kind.asymptoticCm?.basis ?? 'measured');

/** Whose length leaves more in doubt in the end. */
function rougher(actor: StockAnimal, victim: StockAnimal, day: number): StockAnimal {
  const lengths = lengthBook();
  return lengths(actor, day).up >= lengths(victim, day).down ? actor : victim;
}

/** Both lengths, the limit, and the length at entry that stays beyond it to the end; victims do not shrink. */
function addLengths(
  data: Record<string, Datum>,
  actor: StockAnimal,
  victim: StockAnimal,
  share: number,
  day: number,
  untilDay: number,
  failed: boolean,
): void {
  const safe = share * lengthOn(actor, Math.max(day, untilDay));
  const grown = Math.max(victim.kind.asymptoticCm?.centre ?? 0, victim.kind.adultCm?.centre ?? 0);
  const victimCm = lengthOn(victim, day);
  const actorCm = lengthOn(actor, day);
  // The day of a failure is rounded down: the limit may be a hair's breadth off on it.
  const limit = share * actorCm;
  data.actorLength = tenths(actorCm);
  data.victimLength = tenths(victimCm);
  data.limit = tenths(failed ? Math.max(limit, victimCm) : limit);
  if (victim.role === 'newcomer' && safe < grown) data.safeLength = { value: Math.ceil((safe + 0.01) * 2) / 2, unit: 'cm' };
}

function tellKept({ actor, kept, fromDay }: AppetiteMeasure, { how, harm, often, missing, basis }: Threat, { outcome }: Verdict): Telling {
  const data: Record<string, Datum> = { kept: { keys: [...kept] }, harm: { keys: [harm] } };
  addOftenAndHow(data, often, how);
  if (outcome === 'cantTell') {
    data.missing = { keys: [...missing] };
    return { subjects: [{ id: actor.id, role: 'actor' }], data, when: null, basis: 'recalled' };
  }
  // The thing kept is the part it plays here, and so stands in the key.
  return { subjects: [{ id: actor.id, role: kept[0] as Kept }], data, when: fromDay, basis };
}

import type { Basis, Datum, Level, Subject } from '@commensal/schema';
import { isoOf } from '../../quantity/days.js';
import { weakest } from '../../quantity/basis.js';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import { lengthOn } from '../gape/index.js';
import { type LengthBook, lengthBook } from '../gape/lengths.js';
import { LEVELS, lower } from '../levels.js';
import { meetingOf } from '../meeting.js';
import { arePartners } from '../partners.js';
import { arrivalOf, comers } from '../presence.js';
import { PASSED, type Rule, type Telling, type Verdict } from '../rule.js';
import { type Aim, aimsAt, aimsAtKept, KEPT, type Kept } from './aims.js';
import { reachOf } from './reach.js';

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
    const lengths = lengthBook();
    const animals = comers(stock);
    for (const actor of animals) {
      for (const victim of animals) {
        // Its own kind is a matter of company; partners live together without harm.
        if (victim.kind.id === actor.kind.id) continue;
        const aims = aimsAt(actor.kind, victim.kind, smallShare);
        if (aims.length === 0 || arePartners(actor.kind, victim.kind)) continue;
        const together = meetingOf(stock, actor, victim);
        if (together !== undefined) each(pairOf(actor, victim, aims, together.from, together.until, lengths));
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

function pairOf(
  actor: StockAnimal,
  victim: StockAnimal,
  aims: readonly Aim[],
  from: number,
  until: number,
  lengths: LengthBook,
): AppetiteMeasure {
  return {
    actor,
    victim,
    kept: [],
    fromDay: from,
    untilDay: until,
    threats: aims.map((aim) => threatOf(aim, actor, victim, from, until, lengths)),
    // What crushes shrimps crushes those that clean as well.
    spared: victim.kind.record.feeding?.cleans?.value === true && actor.kind.form === 'fish' && aims.every(({ how }) => how !== 'crushes'),
  };
}

function threatOf(aim: Aim, actor: StockAnimal, victim: StockAnimal, from: number, until: number, lengths: LengthBook): Threat {
  if (aim.upToShare === undefined) return { ...aim, firstDay: from, possibleDay: from };
  const { firstDay, possibleDay, missing, missingOf } = reachOf(actor, victim, aim.upToShare, from, until, lengths);
  // What is not known of the aim is named before what is not known of the lengths.
  return aim.missing.length > 0 ? { ...aim, firstDay, possibleDay } : { ...aim, firstDay, possibleDay, missing, missingOf };
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
function verdictOn({ harm, often, missing, firstDay, possibleDay }: Threat, { victim, spared }: AppetiteMeasure): Verdict {
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
  const judged = measure.threats.map((threat): Judged => ({ threat, verdict: verdictOn(threat, measure) }));
  return judged.reduce((most, next) => {
    const more = weight(next) - weight(most);
    return more > 0 || (more === 0 && next.threat.firstDay < most.threat.firstDay) ? next : most;
  });
}

const weight = ({ verdict: { outcome, level } }: Judged): number =>
  outcome === 'passed' ? 0 : 1 + 2 * LEVELS.indexOf(level) + (outcome === 'failed' ? 1 : 0);

const oftenAndHow = (often: Aim['often'], how: Aim['how']): Record<string, Datum> => ({
  ...(often === 'at-times' ? { atTimes: { keys: [often] } } : {}),
  ...(how === undefined ? {} : { how: { keys: [how] } }),
});

const tenths = (value: number): Datum => ({ value: Math.round(value * 10) / 10, unit: 'cm' });

function tellPair(measure: AppetiteMeasure, victim: StockAnimal, threat: Threat, { outcome, message }: Verdict): Telling {
  const { actor, fromDay, untilDay, spared } = measure;
  const { how, harm, often, upToShare, missing, missingOf } = threat;
  const subjects: Subject[] = [
    { id: actor.id, role: 'actor' },
    { id: victim.id, role: 'victim' },
  ];
  const common: Record<string, Datum> = {
    harm: { keys: [harm] },
    ...oftenAndHow(often, how),
    ...(spared ? { spared: { keys: ['cleaner'] } } : {}),
  };
  if (message === 'appetite.unknown') {
    const of = missingOf === 'actor' ? actor : victim;
    return { subjects, data: { ...common, missing: { keys: [...missing] }, of: { animal: of.id } }, when: null, basis: 'recalled' };
  }
  const day = outcome === 'failed' ? threat.firstDay : threat.possibleDay;
  const data: Record<string, Datum> = {
    ...common,
    ...(upToShare === undefined ? {} : lengthsOn(actor, victim, upToShare, day, untilDay, outcome === 'failed')),
    ...(day > fromDay ? { fromDay: { date: isoOf(day) } } : {}),
    ...(outcome === 'cantTell' ? { settle: { keys: ['growth'] }, of: { animal: rougher(actor, victim, untilDay).id } } : {}),
  };
  const bases: Basis[] =
    upToShare === undefined
      ? []
      : [actor, victim].flatMap(({ lengthCm, kind }) => [lengthCm?.basis ?? 'measured', kind.asymptoticCm?.basis ?? 'measured']);
  return { subjects, data, when: day, basis: weakest(threat.basis, ...bases) };
}

/** Whose length leaves more in doubt in the end. */
function rougher(actor: StockAnimal, victim: StockAnimal, day: number): StockAnimal {
  const lengths = lengthBook();
  return lengths(actor, day).up >= lengths(victim, day).down ? actor : victim;
}

/** Both lengths, the limit, and the length at entry that stays beyond it to the end; victims do not shrink. */
function lengthsOn(
  actor: StockAnimal,
  victim: StockAnimal,
  share: number,
  day: number,
  untilDay: number,
  failed: boolean,
): Record<string, Datum> {
  const safe = share * lengthOn(actor, Math.max(day, untilDay));
  const grown = Math.max(victim.kind.asymptoticCm?.centre ?? 0, victim.kind.adultCm?.centre ?? 0);
  const victimCm = lengthOn(victim, day);
  // The day of a failure is rounded down: the limit may be a hair's breadth off on it.
  const limit = share * lengthOn(actor, day);
  return {
    actorLength: tenths(lengthOn(actor, day)),
    victimLength: tenths(victimCm),
    limit: tenths(failed ? Math.max(limit, victimCm) : limit),
    ...(victim.role === 'newcomer' && safe < grown ? { safeLength: { value: Math.ceil((safe + 0.01) * 2) / 2, unit: 'cm' } } : {}),
  };
}

function tellKept({ actor, kept, fromDay }: AppetiteMeasure, { how, harm, often, missing, basis }: Threat, { outcome }: Verdict): Telling {
  const things: Datum = { keys: [...kept] };
  if (outcome === 'cantTell') {
    return {
      subjects: [{ id: actor.id, role: 'actor' }],
      data: { kept: things, harm: { keys: [harm] }, ...oftenAndHow(often, how), missing: { keys: [...missing] } },
      when: null,
      basis: 'recalled',
    };
  }
  return {
    // The thing kept is the part it plays here, and so stands in the key.
    subjects: [{ id: actor.id, role: kept[0] as Kept }],
    data: { kept: things, harm: { keys: [harm] }, ...oftenAndHow(often, how) },
    when: fromDay,
    basis,
  };
}

import type { Basis, Datum } from '@commensal/schema';
import { weakest } from '../quantity/basis.js';
import { isoOf } from '../quantity/days.js';
import type { Stock, StockAnimal } from '../stock/stock.js';
import { pugnacityToKin } from './conduct.js';
import { PASSED, type Rule, type Telling, type Verdict } from './rule.js';

/** One judgement: how long a fish is watched, a lot in the holding tank, kin in one lot, or a batch after a disease. */
export type QuarantineMeasure = WatchMeasure | LotMeasure | KinMeasure | FallowMeasure;

/** Fishes of one line, or all of a batch of which no day of purchase is told. */
export interface WatchMeasure {
  readonly what: 'watch';
  readonly newcomers: readonly StockAnimal[];
  readonly entryDay: number;
  readonly purchaseDay: number | undefined;
}

/** A lot on the day it comes to the holding tank, and the lots that it finds there. */
export interface LotMeasure {
  readonly what: 'lot';
  readonly newcomers: readonly StockAnimal[];
  readonly others: readonly StockAnimal[];
  readonly day: number;
  /** Lots in the holding tank from that day, its own among them. */
  readonly lots: number;
  /** How many it takes; undefined where the situation does not tell. */
  readonly room: number | undefined;
  /** First day on which there is room again. */
  readonly freeDay: number;
}

/** Two lines of one kin group that are watched in one lot. */
export interface KinMeasure {
  readonly what: 'kin';
  readonly one: StockAnimal;
  readonly other: StockAnimal;
  /** The fiercer of what each does to the other, 0 to 4, as far as it is told. */
  readonly pugnacity: number;
  /** Both records tell. */
  readonly isTold: boolean;
  readonly day: number;
}

/** The fishes of a batch that go into a tank where a catching disease was seen. */
export interface FallowMeasure {
  readonly what: 'fallow';
  readonly newcomers: readonly StockAnimal[];
  readonly entryDay: number;
  readonly lastSeen: number;
  /** Days without fish after the disease was last seen and before they go in. */
  readonly fishlessDays: number;
  /** First of them, where they last until the entry. */
  readonly fishlessFrom: number | undefined;
}

type Option = 'watchDays' | 'fallowDays' | 'recentDays' | 'fightsFrom';

/** Are newcomers watched apart, and long enough, before they go in? */
export const quarantine: Rule<QuarantineMeasure, Option> = {
  id: 'quarantine',
  question: 'Are new fishes watched long enough, each lot apart, before they go in?',
  scope: 'tank',
  planning: 'plan',
  gravest: 'warning',
  monotone: { water: 'neither', rock: 'neither', fewerAnimals: 'better', delay: 'either' },
  needs: ['introductions.purchasedOn', 'introductions.date', 'tank.holdingTank', 'tank.disease', 'kinGroup', 'conduct.pugnacity'],
  sources: ['hadfield-2011'],
  defaults: {
    watchDays: {
      value: 30,
      unit: 'd',
      basis: 'measured',
      source: 'hadfield-2011',
      note: 'Days apart before entry; 95 % of 42 public aquaria take at least so many.',
    },
    fallowDays: { value: 76, unit: 'd', basis: 'practice', note: 'Days without fish after which the cysts of white spot have died out.' },
    recentDays: { value: 365, unit: 'd', basis: 'choice', note: 'A disease last seen longer ago, with fishes kept since, counts as gone.' },
    fightsFrom: { value: 2, unit: '1', basis: 'choice', note: 'Pugnacity from which kin do not share a bare tank in peace: chasing.' },
  },

  measure(stock, { recentDays }, each) {
    const batches = fishBatches(stock);
    for (const [entryDay, newcomers] of batches) {
      for (const animal of newcomers) {
        if (animal.purchaseDay !== undefined) each({ what: 'watch', newcomers: [animal], entryDay, purchaseDay: animal.purchaseDay });
      }
      const untold = newcomers.filter((animal) => animal.purchaseDay === undefined);
      if (untold.length > 0) each({ what: 'watch', newcomers: untold, entryDay, purchaseDay: undefined });
    }
    const stays = staysOf(batches);
    measureLots(stock, stays, each);
    for (const stay of stays) measureKin(stay, each);
    measureFallow(stock, batches, recentDays, each);
  },

  judge(measure, { watchDays, fallowDays, fightsFrom }) {
    switch (measure.what) {
      case 'watch': {
        const { purchaseDay, entryDay } = measure;
        if (purchaseDay === undefined) return { outcome: 'cantTell', level: 'note', message: 'quarantine.purchaseUnknown' };
        return entryDay - purchaseDay < watchDays ? { outcome: 'failed', level: 'warning', message: 'quarantine.tooShort' } : PASSED;
      }
      case 'lot': {
        const { lots, room } = measure;
        if (lots === 1) return PASSED;
        if (room === undefined) return { outcome: 'cantTell', level: 'warning', message: 'quarantine.roomUnknown' };
        return lots > room ? { outcome: 'failed', level: 'warning', message: 'quarantine.noRoom' } : PASSED;
      }
      case 'kin': {
        const { pugnacity, isTold } = measure;
        if (pugnacity >= fightsFrom) return { outcome: 'failed', level: 'note', message: 'quarantine.kinTogether' };
        return isTold ? PASSED : { outcome: 'cantTell', level: 'note', message: 'quarantine.kinUnknown' };
      }
      case 'fallow':
        return measure.fishlessDays < fallowDays ? { outcome: 'failed', level: 'warning', message: 'quarantine.notFallow' } : PASSED;
    }
  },

  tell(measure, verdict, stock, options) {
    switch (measure.what) {
      case 'watch':
        return tellWatch(measure, options.watchDays, stock.day);
      case 'lot':
        return tellLot(measure, verdict);
      case 'kin':
        return tellKin(measure, verdict);
      case 'fallow':
        return tellFallow(measure, options.fallowDays);
    }
  },
};

/** The fishes that go in, by day. What else goes in carries other diseases and is watched by the way. */
function fishBatches({ animals, day: today }: Stock): [entryDay: number, newcomers: StockAnimal[]][] {
  const byDay = new Map<number, StockAnimal[]>();
  for (const animal of animals) {
    if (animal.role !== 'newcomer' || animal.kind.form !== 'fish') continue;
    const day = animal.entryDay ?? today;
    byDay.set(day, [...(byDay.get(day) ?? []), animal]);
  }
  return [...byDay.entries()].sort(([one], [other]) => one - other);
}

/** A lot in the holding tank: what goes in on one day, from the first purchase on. */
interface Stay {
  readonly animals: readonly StockAnimal[];
  readonly from: number;
  readonly until: number;
}

function staysOf(batches: readonly [number, readonly StockAnimal[]][]): Stay[] {
  return batches.flatMap(([until, newcomers]) => {
    const animals = newcomers.filter(({ purchaseDay }) => purchaseDay !== undefined && purchaseDay < until);
    const from = Math.min(...animals.map(({ purchaseDay }) => purchaseDay as number));
    return animals.length > 0 ? [{ animals, from, until }] : [];
  });
}

/** Lots change where one comes: what it finds there is there on that day, and leaves on the day it goes in. */
function measureLots({ tank }: Stock, stays: readonly Stay[], each: (measure: QuarantineMeasure) => void): void {
  const room = tank.holdingLots;
  const isBefore = (one: Stay, other: Stay): boolean => one.from < other.from || (one.from === other.from && one.until < other.until);
  for (const stay of stays) {
    const others = stays.filter((other) => isBefore(other, stay) && other.until > stay.from);
    const ends = others.map(({ until }) => until).sort((one, other) => one - other);
    each({
      what: 'lot',
      newcomers: stay.animals,
      others: others.flatMap(({ animals }) => animals),
      day: stay.from,
      lots: others.length + 1,
      room,
      freeDay: ends[Math.max(0, ends.length - (room ?? 1))] ?? stay.from,
    });
  }
}

/** A pair, a harem or a group of one species gets on. */
const getsOn = (one: StockAnimal, other: StockAnimal): boolean => {
  const company = one.kind.record.conduct?.company?.kind;
  return one.kind.id === other.kind.id && company !== undefined && company !== 'solitary';
};

function measureKin({ animals }: Stay, each: (measure: QuarantineMeasure) => void): void {
  animals.forEach((one, index) => {
    for (const other of animals.slice(one.count > 1 ? index : index + 1)) {
      if (one.kind.kinGroup !== other.kind.kinGroup || getsOn(one, other)) continue;
      const [from, to] = [pugnacityToKin(one.kind, other.kind), pugnacityToKin(other.kind, one.kind)];
      each({
        what: 'kin',
        one,
        other,
        pugnacity: Math.max(from ?? 0, to ?? 0),
        isTold: from !== undefined && to !== undefined,
        day: Math.max(one.purchaseDay as number, other.purchaseDay as number),
      });
    }
  });
}

function measureFallow(
  { tank }: Stock,
  batches: readonly [number, readonly StockAnimal[]][],
  recentDays: number,
  each: (measure: QuarantineMeasure) => void,
): void {
  if (tank.disease === undefined) return;
  const { lastSeen, fishlessFrom, fishlessUntil } = tank.disease;
  for (const [entryDay, newcomers] of batches) {
    if (entryDay < lastSeen || entryDay - lastSeen > recentDays) continue;
    // What was seen on fishes was seen while fishes were in: the count starts the day after.
    const from = Math.max(fishlessFrom ?? Number.POSITIVE_INFINITY, lastSeen + 1);
    const until = Math.min(fishlessUntil ?? Number.NEGATIVE_INFINITY, entryDay - 1);
    const fishlessDays = Math.max(0, until - from + 1);
    // Only what still lasts can be made longer.
    const lasts = fishlessDays > 0 && until === entryDay - 1;
    each({ what: 'fallow', newcomers, entryDay, lastSeen, fishlessDays, fishlessFrom: lasts ? from : undefined });
  }
}

const inRole = (animals: readonly StockAnimal[], role: string): { id: string; role: string }[] => animals.map(({ id }) => ({ id, role }));

const days = (value: number): Datum => ({ value, unit: 'd' });
const date = (day: number): Datum => ({ date: isoOf(day) });

function tellWatch({ newcomers, entryDay, purchaseDay }: WatchMeasure, watchDays: number, today: number): Telling {
  return {
    subjects: inRole(newcomers, purchaseDay === undefined ? 'untold' : 'newcomer'),
    data: {
      day: date(entryDay),
      needed: days(watchDays),
      // A day that is past is no advice.
      ...(entryDay - watchDays < today ? {} : { buyBy: date(entryDay - watchDays) }),
      ...(purchaseDay === undefined
        ? { missing: { keys: ['purchasedOn'] } }
        : { watched: days(Math.max(0, entryDay - purchaseDay)), earliest: date(purchaseDay + watchDays) }),
    },
    when: entryDay,
    basis: 'measured',
  };
}

function tellLot({ newcomers, others, day, lots, room, freeDay }: LotMeasure, { message }: Verdict): Telling {
  return {
    subjects: [...inRole(newcomers, 'lot'), ...inRole(others, 'lodger')],
    data: {
      day: date(day),
      lots: { value: lots, unit: '1' },
      ...(room === undefined ? {} : { room: { value: room, unit: '1' } }),
      ...(message === 'quarantine.roomUnknown' ? { missing: { keys: ['tank.holdingTank'] } } : {}),
      free: date(freeDay),
    },
    when: day,
    basis: 'practice',
  };
}

function tellKin({ one, other, day }: KinMeasure, { outcome }: Verdict): Telling {
  const bases: Basis[] = [one.kind.pugnacity?.basis ?? 'measured', other.kind.pugnacity?.basis ?? 'measured'];
  return {
    subjects: one === other ? [{ id: one.id, role: 'kin' }] : inRole([one, other], 'kin'),
    data: {
      kinGroup: { keys: [one.kind.kinGroup] },
      ...(outcome === 'cantTell' ? { missing: { keys: ['conduct.pugnacity'] } } : {}),
    },
    when: day,
    basis: weakest(...bases),
  };
}

function tellFallow({ newcomers, entryDay, lastSeen, fishlessDays, fishlessFrom }: FallowMeasure, fallowDays: number): Telling {
  return {
    subjects: inRole(newcomers, 'fish'),
    data: {
      day: date(entryDay),
      lastSeen: date(lastSeen),
      fishless: days(fishlessDays),
      needed: days(fallowDays),
      ...(fishlessFrom === undefined ? {} : { earliest: date(fishlessFrom + fallowDays) }),
    },
    when: entryDay,
    basis: 'practice',
  };
}

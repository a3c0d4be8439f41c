import type { Finding, Situation } from '@commensal/schema';
import { type Asked, findingsOf, isError } from '../check/check.js';
import { entryGap } from '../rules/entry-gap/index.js';
import { entryOrder } from '../rules/entry-order.js';
import { isVendors } from '../rules/ids.js';
import { maturity, readyDay } from '../rules/maturity.js';
import { ammoniaMayBeAnError, nitrogen } from '../rules/nitrogen/index.js';
import { quarantine } from '../rules/quarantine.js';
import { type AnyRule, optionsOf } from '../rules/rule.js';
import type { Library } from '../stock/library.js';
import type { Stock, StockAnimal, StockKind } from '../stock/stock.js';
import { holding, laidOut } from '../stock/same-shape.js';
import { inEntryOrder, stockOf } from '../stock/stock-of.js';
import { type Line, linesOf, type Watch } from './line.js';
import { hangsOnAll, isAmong, type RuleSets, ruleSetsOf } from './rule-sets.js';

/** What planning stands on: the tank as it is, the wishes, the rules. */
export interface Ground {
  readonly situation: Situation;
  readonly stock: Stock;
  readonly lines: readonly Line[];
  readonly rules: readonly AnyRule[];
  readonly sets: RuleSets;
  /** Ids of the animals that are in the tank already. */
  readonly residents: ReadonlySet<string>;
  readonly asks: Asks;
  /** First day on which anything may go in. */
  readonly startDay: number;
  /** Days from one batch to the next: the customary gap, or what a lot takes in the holding tank where that is longer. */
  readonly gapDays: number;
  readonly customaryGapDays: number;
  /** Places in the order that pass before what is watched first can go in. */
  readonly watchedFrom: number;
  /** Batches that all wishes together would make. */
  readonly mostBatches: number;
  /** Most animals that are wished for of one kind. */
  readonly mostOfOne: number;
  readonly pugnaciousToOthers: number;
  readonly pugnaciousToNewcomers: number;
  /** Work done so far, against which the search is limited: parts of checks and questions of order count 1, checks half of their rules. And ways tried one by one. */
  readonly spent: { work: number; ways: number };
  /** What two animals at lengths on days mean to each other, as found so far. */
  readonly meetings: Map<string, Danger>;
  /** Whether two may exclude each other at any length, as found so far. */
  readonly perhaps: Map<string, boolean>;
  /** The same by numbers, for places in an order of entry. */
  readonly clashes: Map<number, Int8Array>;
  /** Of one line beside another at its place, the latest position at which it is not swallowed. */
  readonly latest: Map<number, Int16Array>;
  /** Which parts lines play in dangers at their worst, as found so far. */
  readonly roles: Map<string, Parts>;
}

/** A ground with some of it changed, laid out as all grounds are: engines are quicker with objects of one shape. */
export function groundWith(ground: Ground, changed: Partial<Ground> = {}): Ground {
  const all = { ...ground, ...changed };
  const {
    situation,
    stock,
    lines,
    rules,
    sets,
    residents,
    asks,
    startDay,
    gapDays,
    customaryGapDays,
    watchedFrom,
    mostBatches,
    mostOfOne,
  } = all;
  const { pugnaciousToOthers, pugnaciousToNewcomers, spent, meetings, perhaps, clashes, latest, roles } = all;
  return {
    situation,
    stock,
    lines,
    rules,
    sets,
    residents,
    asks,
    startDay,
    gapDays,
    customaryGapDays,
    watchedFrom,
    mostBatches,
    mostOfOne,
    pugnaciousToOthers,
    pugnaciousToNewcomers,
    spent,
    meetings,
    perhaps,
    clashes,
    latest,
    roles,
  };
}

/** What is asked of a set: how well it does, what keeps it out, or no more than whether anything does. */
export type Asks = 'how-well' | 'what-excludes' | 'whether';

/** The parts one line plays. */
export interface Parts {
  readonly predator: boolean;
  readonly prey: boolean;
}

/** Whether a meeting rules a set out, or only warns, and for whom. */
export interface Danger {
  readonly excludes: boolean;
  readonly grave: Roles;
  readonly slight: Roles;
}

/** Ids by part: who could swallow, who could be swallowed. */
export interface Roles {
  readonly predators: readonly string[];
  readonly prey: readonly string[];
}

/** Lays the ground for a plan. Introductions that stand in the situation are kept as they are. */
export function groundOf(
  situation: Situation,
  library: Library,
  rules: readonly AnyRule[],
  asks: Asks = 'how-well',
  known?: ReadonlyMap<string, StockKind>,
): Ground {
  const { stock } = stockOf(situation, library, known);
  const customaryGapDays = optionsOf(entryGap, stock).gapDays;
  const watch = watchIn(stock, rules);
  const gapDays =
    watch === undefined ? customaryGapDays : Math.max(customaryGapDays, Math.ceil(watch.days / (stock.tank.holdingLots ?? 1)));
  const lastEntry = Math.max(...stock.animals.map((animal) => animal.entryDay ?? Number.NEGATIVE_INFINITY), Number.NEGATIVE_INFINITY);
  const lines = linesOf(
    stock.wishes,
    stock.animals.map((animal) => animal.id),
    watch,
    readyIn(stock, rules),
  );
  const startDay = Math.max(stock.day, stock.tank.cycledDay ?? stock.day, lastEntry + gapDays, stock.settings.notBefore ?? stock.day);
  const isWatched = lines.some((line) => line.watch !== undefined);
  return groundWith({
    situation,
    stock,
    lines,
    rules,
    sets: ruleSetsOf(stock, rules),
    residents: new Set(stock.animals.map(({ id }) => id)),
    asks,
    startDay,
    gapDays,
    customaryGapDays,
    watchedFrom: watch === undefined || !isWatched ? 0 : Math.ceil(Math.max(0, stock.day + watch.days - startDay) / Math.max(1, gapDays)),
    mostBatches: new Set(lines.map((line) => line.batch)).size,
    mostOfOne: Math.max(1, ...lines.map(({ wish }) => wish.most)),
    ...optionsOf(entryOrder, stock),
    spent: { work: 0, ways: 0 },
    meetings: new Map(),
    perhaps: new Map(),
    clashes: new Map(),
    latest: new Map(),
    roles: new Map(),
  });
}

/** Whether a rule is among those that are asked, and not switched off. */
export const isAsked = ({ stock, rules }: { readonly stock: Stock; readonly rules: readonly AnyRule[] }, rule: AnyRule): boolean =>
  rules.includes(rule) && !stock.settings.off.includes(rule.id);

/** Where there is a holding tank, fishes are watched in it for as long as the rule on quarantine asks. */
function watchIn(stock: Stock, rules: readonly AnyRule[]): Watch | undefined {
  if (stock.tank.holdingLots === undefined || !isAsked({ stock, rules }, quarantine)) return undefined;
  return { days: optionsOf(quarantine, stock).watchDays, fromDay: stock.day };
}

/** When the tank is old enough for a species, by the rule on maturity. */
function readyIn(stock: Stock, rules: readonly AnyRule[]): (kind: StockKind) => number {
  const asks = isAsked({ stock, rules }, maturity);
  const options = optionsOf(maturity, stock);
  return (kind) => (asks ? (readyDay(stock, kind, options) ?? stock.day) : stock.day);
}

/** The day of a place in the order of entry. */
export const dayAt = ({ startDay, gapDays }: Ground, position: number): number => startDay + position * gapDays;

/** Places in the order of entry that so many batches may take up. */
export const placesFor = ({ watchedFrom }: Ground, batches: number): number => batches + watchedFrom;

/** The errors and doubts about errors alone, by some of the rules. */
export function findingsWith(ground: Ground, newcomers: readonly StockAnimal[], asked: readonly Asked[]): readonly Finding[] {
  ground.spent.work += 1;
  return findingsOf(stockWith(ground, newcomers), asked, 'error');
}

/** The stock with more animals in it. */
export const stockWith = (ground: Ground, newcomers: readonly StockAnimal[]): Stock =>
  stockOfAll(ground, [...ground.stock.animals, ...newcomers]);

const stockOfAll = (ground: Ground, animals: readonly StockAnimal[]): Stock => holding(ground.stock, inEntryOrder(animals));

/** Whether a finding rules out a set: an error, or a doubt about one where the settings say so, that involves a newcomer. */
export function excludes(ground: Ground, finding: Finding, newcomers: ReadonlySet<string>): boolean {
  return (isError(finding) || isDreaded(ground, finding)) && involves(finding, newcomers);
}

/** A doubt about an error, where the settings exclude what cannot be ruled out. */
const isDreaded = (ground: Ground, finding: Finding): boolean =>
  ground.stock.settings.whenUncertain === 'exclude' &&
  finding.outcome === 'cantTell' &&
  finding.level === 'error' &&
  finding.accepted === undefined;

const involves = (finding: Finding, newcomers: ReadonlySet<string>): boolean =>
  finding.subjects.some((subject) => newcomers.has(subject.id));

/**
 * Whether a finding rules out every larger set as well, whatever lengths and days it is at elsewhere. Errors do. A doubt may
 * turn into a milder failure as claims add up or animals grow, so that of doubts only those count that hang on neither.
 */
export function excludesForGood(ground: Ground, finding: Finding, newcomers: ReadonlySet<string>): boolean {
  if (isError(finding)) return involves(finding, newcomers);
  if (!isDreaded(ground, finding)) return false;
  const planning = ground.rules.find((rule) => rule.id === finding.rule)?.planning;
  const hangsOnNeither = planning !== 'capacity' && (planning !== 'pair' || finding.data.missing !== undefined);
  return hangsOnNeither && involves(finding, newcomers);
}

/** Whether it is worth asking a rule that is dear to ask. */
export const mayFail = (ground: Ground, rule: AnyRule, newcomers: readonly StockAnimal[]): boolean =>
  rule !== nitrogen || ground.stock.settings.whenUncertain === 'exclude' || ammoniaMayBeAnError(stockWith(ground, newcomers));

/** Whether a finding may be gone at other lengths or on other days than those tried: it is by no sum, and by a rule that promises nothing of it. */
export function mayPass({ sets, rules }: Ground, { rule }: Finding): boolean {
  if (isAmong(sets.capacity, rule)) return false;
  return isVendors(rule) || hangsOnAll(rule) || rules.some(({ id, planning }) => id === rule && planning === 'plan');
}

/** Whether a finding stands at whatever lengths and on whatever days. */
export const isFixed = (ground: Ground, finding: Finding): boolean =>
  !mayPass(ground, finding) && !isAmong(ground.sets.meeting, finding.rule) && !isAmong(ground.sets.capacity, finding.rule);

/** Last day that planning thinks of for an entry: every batch that the wishes could make, one after the other. */
export const lastDay = (ground: Ground): number => dayAt(ground, Math.max(0, placesFor(ground, ground.mostBatches) - 1));

/** Most batches after which one is let wait for nothing but that less of its life then lies before the horizon: about a year. */
const MOST_WAIT = 13;

/** Places at which it is tried whether one, or two, can be in the tank at all. */
export const placesTried = (ground: Ground): number => Math.max(1, placesFor(ground, Math.min(MOST_WAIT, ground.mostBatches)));

/** Last day of those for a wish: what waits for an older tank comes in later still. */
export const lastDayTried = (ground: Ground, { readyDay }: Line): number => Math.max(dayAt(ground, placesTried(ground) - 1), readyDay);

/** What two animals mean to each other by the rules on meetings, whichever is named first; a resident among them is nobody's fault. */
export function meetingOf(ground: Ground, one: StockAnimal, other: StockAnimal): Danger {
  if (other.id < one.id) return meetingOf(ground, other, one);
  const key = `${meetingName(one)} ${meetingName(other)}`;
  const known = ground.meetings.get(key);
  if (known !== undefined) return known;
  const danger = dangerOf(ground, one, other);
  ground.meetings.set(key, danger);
  return danger;
}

/** Most that meet mean nothing to each other. */
const NO_DANGER: Danger = { excludes: false, grave: { predators: [], prey: [] }, slight: { predators: [], prey: [] } };

function dangerOf(ground: Ground, one: StockAnimal, other: StockAnimal): Danger {
  const all = findingsOf(stockOfAll(ground, one === other ? [one] : [one, other]), ground.sets.meeting, 'warning');
  if (all.length === 0) return NO_DANGER;
  const newcomers = new Set([one.id, other.id].filter((id) => !ground.residents.has(id)));
  const findings = all.filter((finding) => finding.accepted === undefined);
  const grave = findings.filter((finding) => excludes(ground, finding, newcomers));
  return {
    excludes: grave.length > 0,
    grave: rolesIn(ground, grave),
    slight: rolesIn(
      ground,
      findings.filter((finding) => !grave.includes(finding)),
    ),
  };
}

const meetingName = (animal: StockAnimal): string => `${animal.id}@${animal.count}@${animal.entryDay}@${animal.lengthCm?.centre}`;

/** Under a rule that says nothing of length an animal is both. */
const rolesIn = (ground: Ground, findings: readonly Finding[]): Roles => {
  const inRole = (name: 'worse' | 'better'): string[] =>
    findings.flatMap(({ rule, subjects }) => {
      const { longer } = ground.rules.find(({ id }) => id === rule) ?? {};
      return subjects.filter(({ role }) => longer === undefined || longer[name] === role).map(({ id }) => id);
    });
  return { predators: inRole('worse'), prey: inRole('better') };
};

const newcomerOn = (animal: StockAnimal, day: number): StockAnimal =>
  laidOut({ ...animal, entryDay: day, lengthDay: day, lengthCm: undefined });

/** How two that come in may stand to each other in time. */
const ORDERS: readonly (readonly [number, number])[] = [
  [0, 1],
  [1, 0],
  [0, 0],
];

/**
 * Whether two animals may exclude each other at all under the rules that say nothing of length, in whichever order, whenever they come in and however long: a
 * length that is not known is judged at its worst, and nothing that could part them is counted on.
 */
export function mayExclude(ground: Ground, one: StockAnimal, other: StockAnimal): boolean {
  const { eitherWay } = ground.sets;
  if (eitherWay.length === 0) return false;
  if (other.id < one.id) return mayExclude(ground, other, one);
  const key = `${one.id}@${one.count} ${other.id}@${other.count}`;
  const known = ground.perhaps.get(key);
  if (known !== undefined) return known;
  const stock = { ...ground.stock, rockRelaidOn: [], divided: [] };
  const residents = new Set(ground.stock.animals);
  const unmeasured = (animal: StockAnimal, later: number): StockAnimal =>
    residents.has(animal) ? animal : newcomerOn(animal, ground.startDay + later);
  const answer = ORDERS.some(([first, second]) =>
    findingsOf(
      holding(stock, inEntryOrder(one === other ? [unmeasured(one, 0)] : [unmeasured(one, first), unmeasured(other, second)])),
      eitherWay,
      'error',
    ).some(({ accepted }) => accepted === undefined),
  );
  ground.perhaps.set(key, answer);
  return answer;
}

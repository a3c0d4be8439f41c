import type { Finding, Situation } from '@commensal/schema';
import { type Asked, askedUnder, byGravity, findingsOf, isAccepted, isError } from '../check/check.js';
import { reachInto, type TankReach } from '../rules/gape/tank-reach.js';
import { gape } from '../rules/gape/index.js';
import type { GapeOptions } from '../rules/gape/options.js';
import { isVendors } from '../rules/ids.js';
import { rules as allRules } from '../rules/index.js';
import { ammoniaMayBeAnError, nitrogen } from '../rules/nitrogen/index.js';
import { type AnyRule, keyOf } from '../rules/rule.js';
import { kindOf } from '../stock/kind-of.js';
import { type Library, recordOf } from '../stock/library.js';
import { holding, laidOut } from '../stock/same-shape.js';
import type { Stock, StockAnimal, StockKind } from '../stock/stock.js';
import { freeId } from './line.js';
import { inEntryOrder, stockOf } from '../stock/stock-of.js';

/** A species that might join a tank as it is. */
export interface Candidate {
  readonly species: string;
  /** How many were asked for: as few as its record says it is to be kept in. */
  readonly count: number;
  /** Length at which it usually comes in, total, in cm; undefined where that is not known. */
  readonly lengthCm: number | undefined;
  readonly mayJoin: boolean;
  /** Errors that involve it, the gravest first; none where a scan asks only whether. */
  readonly because: readonly Finding[];
  /** Doubts about errors that involve it; undefined in a scan that asks only whether. */
  readonly doubts: number | undefined;
}

export interface CandidateOptions {
  /** Ids of species; all of the library when left out. */
  readonly species?: readonly string[];
  readonly rules?: readonly AnyRule[];
  /** `whether` stops at the first error of each, and is many times faster over thousands of species. */
  readonly asks?: 'reasons' | 'whether';
}

/**
 * Which species may join a tank as it is: those that, put in on the day of the situation (or the first that its settings allow) at the length usually sold, are part of no
 * error. The same as asking `check` of the situation with that one introduction more.
 *
 * Of a species that lives in pairs or groups, and of which none is there, the fewest are asked for that its record allows.
 *
 * @throws RangeError for a species that the library does not hold.
 */
export function candidatesFor(
  situation: Situation,
  library: Library,
  { species, rules = allRules, asks = 'reasons' }: CandidateOptions = {},
): Candidate[] {
  const { stock } = stockOf(situation, library);
  const sorted = rulesByStage(stock, rules);
  const reach = sorted.gape === undefined ? undefined : reachInto(stock, sorted.gape.options as GapeOptions, dayOfEntry(stock));
  return (species ?? [...library.records.keys()]).map((id) => {
    const record = recordOf(library, id);
    if (record === undefined) throw new RangeError(`candidatesFor: expected a species of the library, received "${id}"`);
    const animal = newcomerOf(stock, kindOf(record, library.standIns));
    const told = asks === 'whether' ? whether(!hasError(stock, animal, sorted, reach)) : everyError(stock, animal, sorted.all);
    return { species: record.id, count: animal.count, lengthCm: animal.lengthCm?.centre, ...told };
  });
}

type Told = Pick<Candidate, 'mayJoin' | 'because' | 'doubts'>;

const whether = (mayJoin: boolean): Told => ({ mayJoin, because: [], doubts: undefined });

const dayOfEntry = ({ day, settings }: Stock): number => Math.max(day, settings.notBefore ?? day);

/** A newcomer as a situation without length, sex or day of purchase has it. */
function newcomerOf(stock: Stock, kind: StockKind): StockAnimal {
  const day = dayOfEntry(stock);
  return laidOut({
    id: freeId(kind.id, new Set(stock.animals.map((animal) => animal.id.split('#')[0] as string))),
    name: undefined,
    kind,
    count: fewest(stock, kind),
    role: 'newcomer',
    sex: undefined,
    origin: undefined,
    purchaseDay: undefined,
    lengthCm: kind.entryCm,
    lengthDay: day,
    entryDay: day,
    leaveDay: Number.POSITIVE_INFINITY,
  });
}

/** A pair, or the fewest of a group; one of all others, and where some of its kind are there already. */
function fewest({ animals }: Stock, { id, record }: StockKind): number {
  const company = record.conduct?.company;
  if (company === undefined || animals.some(({ kind }) => kind.id === id)) return 1;
  return company.kind === 'pair' ? 2 : Math.max(1, company.least ?? 1);
}

interface Stages {
  readonly all: readonly Asked[];
  /** About one animal alone. */
  readonly option: readonly Asked[];
  readonly gape: Asked | undefined;
  /** About two animals. */
  readonly pair: readonly Asked[];
  /** About all there are, the dear one last. */
  readonly rest: readonly Asked[];
}

function rulesByStage(stock: Stock, rules: readonly AnyRule[]): Stages {
  const all = askedUnder(stock, rules).filter(({ rule }) => rule.gravest === undefined);
  const ours = (planning: string) => (one: Asked) => !isVendors(one.rule.id) && one.rule.planning === planning;
  const option = all.filter(ours('option'));
  // Where something is accepted, each finding has to be looked at.
  const swallowing = stock.settings.accepted.length > 0 ? undefined : all.find(({ rule }) => rule === gape);
  const pair = all.filter((one) => ours('pair')(one) && one !== swallowing);
  const rest = all.filter((one) => one !== swallowing && !option.includes(one) && !pair.includes(one));
  return {
    all,
    option,
    gape: swallowing,
    pair,
    rest: [...rest.filter(({ rule }) => rule !== nitrogen), ...rest.filter(({ rule }) => rule === nitrogen)],
  };
}

const withNewcomer = (stock: Stock, animal: StockAnimal): Stock => holding(stock, inEntryOrder([...stock.animals, animal]));

const involves = (finding: Finding, { id }: StockAnimal): boolean => finding.subjects.some((subject) => subject.id === id);

function everyError(stock: Stock, animal: StockAnimal, asked: readonly Asked[]): Told {
  const findings = findingsOf(withNewcomer(stock, animal), asked, 'error').filter((finding) => involves(finding, animal));
  const because = findings.filter(isError).sort(byGravity);
  return {
    mayJoin: because.length === 0,
    because,
    doubts: findings.filter(({ outcome, accepted }) => outcome === 'cantTell' && accepted === undefined).length,
  };
}

/** What is cheap and rules out most comes first: the animal alone, those it meets one by one, all together. */
function hasError(stock: Stock, animal: StockAnimal, { option, pair, rest }: Stages, reach: TankReach | undefined): boolean {
  const alone = holding(stock, [animal]);
  if (option.some((one) => fails(alone, one, animal))) return true;
  // Several of a kind meet each other as well.
  if (animal.count > 1 && pair.some((one) => fails(alone, one, animal))) return true;
  if (reach?.errs(animal) === true) return true;
  if (stock.animals.some((other) => meets(stock, other, animal, pair))) return true;
  const whole = withNewcomer(stock, animal);
  return rest.some((one) => (one.rule !== nitrogen || ammoniaMayBeAnError(whole)) && fails(whole, one, animal));
}

function meets(stock: Stock, other: StockAnimal, animal: StockAnimal, asked: readonly Asked[]): boolean {
  const both = holding(stock, inEntryOrder([other, animal]));
  return asked.some((one) => fails(both, one, animal));
}

/** Whether one rule comes to an error that involves an animal and that nobody has accepted. */
function fails(stock: Stock, { rule, options }: Asked, animal: StockAnimal): boolean {
  let isFound = false;
  rule.measure(stock, options, (measure) => {
    if (isFound) return;
    const verdict = rule.judge(measure, options);
    if (verdict.outcome !== 'failed' || verdict.level !== 'error') return;
    const { subjects } = rule.tell(measure, verdict, stock, options);
    isFound = subjects.some(({ id }) => id === animal.id) && !isAccepted(stock, keyOf(rule.id, subjects));
  });
  return isFound;
}

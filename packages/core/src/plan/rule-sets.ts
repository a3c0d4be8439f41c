import { type Asked, askedUnder } from '../check/check.js';
import { dominance } from '../rules/dominance.js';
import { isVendors } from '../rules/ids.js';
import { nitrogen } from '../rules/nitrogen/index.js';
import type { AnyRule } from '../rules/rule.js';
import type { Stock } from '../stock/stock.js';

/** Rules by what planning asks of them, with their options. Found once, as they are asked many thousand times. */
export interface RuleSets {
  readonly all: readonly Asked[];
  /** Whose findings hang on who meets whom, when and at what length. Others' rules on pairs are left to the full check. */
  readonly meeting: readonly Asked[];
  /** Those of them under which any length may be the safest, as where the even contest is the worst. */
  readonly eitherWay: readonly Asked[];
  /** Whose sums only grow with more animals. */
  readonly capacity: readonly Asked[];
  /** By which a pair, or an animal beside the residents, can be out of the question whatever else comes in. */
  readonly lasting: readonly Asked[];
  /** Those of them that are not about one animal alone, or of which that is not known. */
  readonly lastingOnTwo: readonly Asked[];
  /** On introductions, by which more animals never help. */
  readonly lockingOut: readonly Asked[];
  /** That can rule a set out: first those whose failures stand at any lengths and on any days, last those that are dear to ask. */
  readonly excluding: readonly Asked[];
  /** Those of them that are not dear to ask, and those that are. */
  readonly cheap: readonly Asked[];
  readonly dear: readonly Asked[];
  /** Whether a rule of others is among them: nothing is known of it. */
  readonly othersToo: boolean;
}

export function ruleSetsOf(stock: Stock, rules: readonly AnyRule[]): RuleSets {
  const all = askedUnder(stock, rules);
  const those = (wanted: (rule: AnyRule) => boolean): readonly Asked[] => all.filter(({ rule }) => wanted(rule));
  const isMeeting = ({ planning, id }: AnyRule): boolean => planning === 'pair' && !isVendors(id);
  const isLasting = (rule: AnyRule): boolean => rule.planning !== 'plan' && lasts(rule);
  const excluding = [...those(canExclude)].sort((one, other) => turnOf(one.rule) - turnOf(other.rule));
  return {
    all,
    meeting: those(isMeeting),
    eitherWay: those((rule) => isMeeting(rule) && rule.longer === undefined),
    capacity: those((rule) => rule.planning === 'capacity' && lasts(rule)),
    lasting: those(isLasting),
    lastingOnTwo: those((rule) => isLasting(rule) && (rule.planning !== 'option' || isVendors(rule.id))),
    lockingOut: those((rule) => rule.planning === 'plan' && canExclude(rule) && !isVendors(rule.id) && isNeverHelpedByMore(rule)),
    excluding,
    cheap: excluding.filter(({ rule }) => rule !== nitrogen),
    dear: excluding.filter(({ rule }) => rule === nitrogen),
    othersToo: rules.some(({ id }) => isVendors(id)),
  };
}

/** Whether a rule is among some, by its id. */
export const isAmong = (asked: readonly Asked[], id: string): boolean => asked.some(({ rule }) => rule.id === id);

/** What hangs on all that is in the tank: a larger animal may take over its rule, and what went in before feeds what turns the ammonia over. */
export const hangsOnAll = (id: string): boolean => HANG_ON_ALL.includes(id);

const HANG_ON_ALL: readonly string[] = [dominance.id, nitrogen.id];

const turnOf = ({ id, planning }: AnyRule): number =>
  hangsOnAll(id) ? (id === nitrogen.id ? 4 : 3) : planning === 'plan' ? 2 : planning === 'pair' ? 1 : 0;

const canExclude = ({ gravest }: AnyRule): boolean => gravest === undefined;

/** What fails in a set fails in every larger one. Of others' rules only those last that promise it: by their role, and by saying that more animals never help. */
function lasts(rule: AnyRule): boolean {
  if (!canExclude(rule)) return false;
  if (!isVendors(rule.id)) return !hangsOnAll(rule.id);
  return rule.planning !== 'recheck' && isNeverHelpedByMore(rule);
}

const isNeverHelpedByMore = ({ monotone: { fewerAnimals } }: AnyRule): boolean => fewerAnimals === 'better' || fewerAnimals === 'neither';

import type { Basis, Datum, Level, Subject } from '@commensal/schema';
import type { Stock } from '../stock/stock.js';

/** EARL words: what a rule came to. `untested` is said by check where a rule is switched off. */
export type Outcome = 'passed' | 'failed' | 'cantTell' | 'inapplicable';

/** A threshold of a rule: an option with its basis. `choice` is ours, with the reason in the note. */
export interface RuleDefault {
  readonly value: number;
  readonly unit: string;
  readonly basis: Basis | 'choice';
  readonly source?: string;
  readonly note?: string;
}

/** What a judgement says; `message` is a key of the catalogues. */
export interface Verdict {
  readonly outcome: Outcome;
  readonly level: Level;
  readonly message: string;
}

export const PASSED: Verdict = { outcome: 'passed', level: 'note', message: '' };
export const INAPPLICABLE: Verdict = { outcome: 'inapplicable', level: 'note', message: '' };

/** What a finding tells besides its verdict; made anew for each, as the finding keeps it. */
export interface Telling {
  readonly subjects: readonly Subject[];
  readonly data: Readonly<Record<string, Datum>>;
  /** Day number of the first day on which it holds; null where no day applies. */
  readonly when: number | null;
  readonly basis: Basis;
}

/** What more of something can do to an outcome. */
export type Effect = 'better' | 'worse' | 'either' | 'neither';

/**
 * What planning does with a rule, and what the rule promises by it. An error excludes the newcomers that it names as subjects.
 *
 * - `option`: it is about one animal in this tank. What fails on the first and on the last day of entry, at every length, always
 *   fails: such a wish is left out at once.
 * - `pair`: it is about two animals. What fails at every length of both, each on the first and on the last day, always fails:
 *   such wishes are never tried together. `option-and-pair`: both.
 * - `capacity`: it is a sum against a limit, that grows with every animal and is least where all come in short and late.
 * - `recheck`: it promises nothing, and is asked of whole sets with their days and lengths.
 * - `plan`: it is about the days of entry, and asked as `recheck` is.
 *
 * Promises of a rule of others hold where it says as well that more animals never make it better (`monotone.fewerAnimals` is
 * `better` or `neither`); else it is asked as `recheck` is. What a rule without a promise excludes is tried at every length and in
 * every order as long as there are few; else the plan says that it is not proven, and by how much it may fall short.
 */
export type Planning = 'option' | 'pair' | 'capacity' | 'recheck' | 'plan' | 'option-and-pair';

/**
 * A rule: a plain object. `measure` goes from the stock to numbers and hands them over one judgement at a time (the object
 * handed over may be used again for the next), `judge` from numbers to an outcome and a level, `tell` from both to what a
 * sentence needs. What-if runs skip `tell`.
 *
 * `Options` are the rule's thresholds by name.
 */
export interface Rule<Measure, Options extends string> {
  /** `vendor/rule` for rules that are not of this package. */
  readonly id: string;
  readonly question: string;
  readonly scope: 'animal' | 'pair' | 'tank';
  readonly planning: Planning;
  readonly monotone: { readonly water: Effect; readonly rock: Effect; readonly fewerAnimals: Effect; readonly delay: Effect };
  /** The gravest level it comes to, where that is not an error: planning then need not ask it what to leave out. */
  readonly gravest?: 'note' | 'warning';
  /**
   * Of a rule on pairs: roles in which a longer animal that comes earlier never makes it better, and in which a longer one that comes earlier
   * never makes it worse. Without them any lengths and days may be the safest, and planning asks for all.
   */
  readonly longer?: { readonly worse: string; readonly better: string };
  readonly needs: readonly string[];
  readonly sources: readonly string[];
  readonly defaults: Readonly<Record<Options, RuleDefault>>;
  measure(stock: Stock, options: Readonly<Record<Options, number>>, each: (measure: Measure) => void): void;
  judge(measure: Measure, options: Readonly<Record<Options, number>>): Verdict;
  tell(measure: Measure, verdict: Verdict, stock: Stock, options: Readonly<Record<Options, number>>): Telling;
}

/** A rule whose measure only the rule itself looks into. */
export type AnyRule = Rule<unknown, string>;

/**
 * The options of a rule: its defaults, and what the settings say instead.
 *
 * @throws RangeError when the settings name an option the rule does not have.
 */
export function optionsOf<Options extends string>(
  rule: { readonly id: string; readonly defaults: Readonly<Record<Options, RuleDefault>> },
  stock: Stock,
): Readonly<Record<Options, number>> {
  const known = Object.keys(rule.defaults) as Options[];
  const options = {} as Record<Options, number>;
  for (const name of known) options[name] = rule.defaults[name].value;
  const told = stock.settings.thresholds[rule.id];
  if (told === undefined) return options;
  for (const [name, value] of Object.entries(told)) {
    if (!Object.hasOwn(options, name)) {
      throw new RangeError(`optionsOf: expected an option of ${rule.id} (${known.join(', ')}), received "${name}"`);
    }
    options[name as Options] = value;
  }
  return options;
}

/**
 * A finding's key: rule, roles and ids, stable from run to run. Roles stand in the order of the subjects, ids of one role in
 * alphabetical order, so that a date or a length that moves does not change the key.
 *
 * @example
 * keyOf('gape', [{ id: 'hallie', role: 'predator' }, { id: 'pip', role: 'prey' }]); // 'gape:predator=hallie,prey=pip'
 */
export function keyOf(rule: string, subjects: readonly Subject[]): string {
  const [one, other] = subjects;
  if (one === undefined) return `${rule}:`;
  if (other === undefined) return `${rule}:${named(one)}`;
  if (subjects.length > 2) return `${rule}:${namedByRole(subjects)}`;
  const inOrder = one.role !== other.role || one.id <= other.id;
  return inOrder ? `${rule}:${named(one)},${named(other)}` : `${rule}:${named(other)},${named(one)}`;
}

const named = ({ id, role }: Subject): string => `${role}=${id}`;

function namedByRole(subjects: readonly Subject[]): string {
  const roles = [...new Set(subjects.map((subject) => subject.role))];
  return roles.flatMap((role) => inRole(subjects, role)).join(',');
}

const inRole = (subjects: readonly Subject[], role: string): string[] =>
  subjects
    .filter((subject) => subject.role === role)
    .map(named)
    .sort();

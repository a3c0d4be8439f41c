import { arrange, type Arrangement, failsAnyhow } from './arrange.js';
import { conflictsBetween } from './conflicts.js';
import { type Ground, groundWith } from './ground.js';
import { type Entry, inserted } from './insert.js';
import type { Pick } from './line.js';
import { worksAlone } from './options.js';

/** Most batches for which all lengths and orders are gone through anew where putting one more among them fails. */
const MOST_BATCHES_ANEW = 8;

/** Questions about picks beside others. */
export interface Fitting {
  /** Whether a pick comes in beside others. Where many do, and it is not found how, it is taken not to. */
  readonly fits: (others: readonly Pick[], pick: Pick) => boolean;
  /** Put among the others as they come in, whether it works or not; all that excludes it is found, save that ammonia is asked of last. */
  readonly put: (others: readonly Pick[], pick: Pick) => Arrangement;
}

/**
 * What fails alone, or beside one of the others whenever and however long it comes, is not tried further; where it is known how
 * others come in, it is first tried to put it among them.
 */
export function fittingIn(asked: Ground, entries: readonly Entry[]): Fitting {
  const ground = groundWith(asked, { asks: 'whether' });
  const telling = groundWith(asked, { asks: 'what-excludes' });
  const known = new Map<string, boolean>();
  const conflict = conflictsBetween(ground);
  const nameOf = ({ line, count }: Pick): string => `${line.index}x${count}`;
  const answered = (name: string, find: () => boolean): boolean => {
    const answer = known.get(name) ?? find();
    known.set(name, answer);
    return answer;
  };
  const arranged = new Map<string, Arrangement>();
  const among = (others: readonly Pick[]): Entry[] => {
    const lines = new Set(others.map(({ line }) => line));
    return entries.filter(({ line }) => lines.has(line));
  };
  const put = (others: readonly Pick[], pick: Pick): Arrangement => {
    const name = [...others, pick].map(nameOf).join(' ');
    const arrangement = arranged.get(name) ?? inserted(telling, among(others), others, pick);
    arranged.set(name, arrangement);
    return arrangement;
  };
  const find = (others: readonly Pick[], pick: Pick): boolean => {
    const first = inserted(ground, among(others), others, pick);
    if (first.excluding.length === 0) return true;
    if (failsAnyhow(ground, first) || first.batches.length > MOST_BATCHES_ANEW) return false;
    return arrange(ground, [...others, pick]).excluding.length === 0;
  };
  return {
    put,
    fits: (others, pick) =>
      answered(`${nameOf(pick)} alone`, () => worksAlone(ground, pick)) &&
      !others.some(({ line }) => conflict(line, pick.line)) &&
      answered([...others, pick].map(nameOf).sort().join(' '), () => find(others, pick)),
  };
}

/**
 * Of some picks those that can stay beside another: all that it does not exclude, and of those the ones wanted most. Undefined where it
 * cannot even be alone, or where it is not found which.
 */
export function whatCanStay({ fits, put }: Fitting, others: readonly Pick[], pick: Pick): Pick[] | undefined {
  if (!fits([], pick)) return undefined;
  const subjects = new Set(put(others, pick).excluding.flatMap((finding) => finding.subjects.map(({ id }) => id)));
  const named = others.filter(({ line }) => subjects.has(line.id));
  const rest = others.filter((other) => !named.includes(other));
  const isEnough = fits(rest, pick);
  if (!isEnough && others.length > MOST_BATCHES_ANEW) return undefined;
  const kept = isEnough ? rest : [];
  for (const other of isEnough ? named : others) if (fits([...kept, other], pick)) kept.push(other);
  return kept;
}

import { arrange, type Arrangement } from './arrange.js';
import { conflictsBetween } from './conflicts.js';
import type { Ground } from './ground.js';
import { entriesOf, type Entry, inserted } from './insert.js';
import type { Pick } from './line.js';
import { worksAlone } from './options.js';

/** How picks come in with one more; undefined where they do not. */
export type Fits = (others: readonly Pick[], pick: Pick, hint?: readonly Entry[]) => Arrangement | undefined;

/**
 * Whether and how a pick can come in beside others, asked of a ground that only asks whether; each set once. What fails alone or
 * beside one of them whenever and however long it comes is not tried further; where it is known how the others come in, it is first
 * tried to put it among them.
 */
export function fitting(ground: Ground): Fits {
  const known = new Map<string, Arrangement | undefined>();
  const alone = new Map<string, boolean>();
  const conflict = conflictsBetween(ground);
  const nameOf = ({ line, count }: Pick): string => `${line.index}x${count}`;
  const isPossible = (pick: Pick): boolean => {
    const name = nameOf(pick);
    const answer = alone.get(name) ?? worksAlone(ground, pick);
    alone.set(name, answer);
    return answer;
  };
  const find = (others: readonly Pick[], pick: Pick, hint: readonly Entry[] | undefined): Arrangement | undefined => {
    const put = hint === undefined ? undefined : inserted(ground, hint, others, pick);
    if (put?.excluding.length === 0) return put;
    const arrangement = arrange(ground, [...others, pick]);
    return arrangement.excluding.length === 0 ? arrangement : undefined;
  };
  return (others, pick, hint) => {
    if (!isPossible(pick) || others.some(({ line }) => conflict(line, pick.line))) return undefined;
    const name = [...others, pick].map(nameOf).sort().join(' ');
    if (!known.has(name)) known.set(name, find(others, pick, hint));
    return known.get(name);
  };
}

/** Of some picks those that can stay beside another, the first preferred; undefined where it cannot even be alone. */
export function whatCanStay(fits: Fits, others: readonly Pick[], pick: Pick): Pick[] | undefined {
  const alone = fits([], pick);
  if (alone === undefined) return undefined;
  let entries = entriesOf(alone);
  const kept: Pick[] = [];
  for (const other of others) {
    // Seen from the one that joins: all that is in already stays as it is.
    const found = fits([...kept, pick], other, entries);
    if (found === undefined) continue;
    kept.push(other);
    entries = entriesOf(found);
  }
  return kept;
}

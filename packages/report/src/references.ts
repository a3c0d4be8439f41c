import type { CslItem } from '@commensal/schema';
import { cited, citedShort } from './citation.js';

/** Names sources in a few words and remembers which were named. */
export interface References {
  /** Author and year; with its key behind where another source has the same; a key without an entry as it is. */
  short(key: string): string;
  /** All that were used, written out, with what the bibliography remarks of them, in alphabetical order. */
  list(): string[];
}

export function referencesIn(bibliography: readonly CslItem[]): References {
  const items = new Map(bibliography.map((item) => [item.id, item]));
  const used = new Set<string>();
  const times = new Map<string, number>();
  for (const item of bibliography) times.set(citedShort(item), (times.get(citedShort(item)) ?? 0) + 1);
  /** Two sources of one name need their keys; in the list as well, so that they can be told apart there. */
  const mark = (item: CslItem): string => ((times.get(citedShort(item)) ?? 0) > 1 ? ` [${item.id}]` : '');
  return {
    short(key) {
      used.add(key);
      const item = items.get(key);
      return item === undefined ? key : `${citedShort(item)}${mark(item)}`;
    },
    list: () =>
      [...used]
        .map((key) => {
          const item = items.get(key);
          return item === undefined
            ? key
            : [`${cited(item)}${mark(item)}`, ...(item.note === undefined ? [] : [`[${item.note}]`])].join(' ');
        })
        .sort((one, other) => one.localeCompare(other, 'en')),
  };
}

import { nearestWord, type Problem } from '@commensal/schema';
import { sourcesUsed } from '../names/unknown-source.js';
import type { ProblemContext } from '../problem-context.js';
import type { RecordEntry } from './entry.js';

const USUAL_FILE = 'bibliography.json';

/**
 * `unused-source`: entries of the bibliography that neither records nor stand-ins nor anything else names. A key that a record misspells is told
 * there.
 */
export function unusedSources(entries: readonly RecordEntry[], context: ProblemContext): Problem[] {
  const { bibliography, standIns, cited } = context;
  if (cited === undefined) return [];
  const used = new Set(cited);
  for (const { record } of entries) for (const source of sourcesUsed(record)) used.add(source);
  for (const source of standInSources(standIns)) used.add(source);
  const ids = bibliography.map(({ id }) => id);
  const strange = [...used].filter((source) => !ids.includes(source));
  const meant = new Set(strange.map((source) => nearestWord(source, ids)));
  return bibliography.flatMap(({ id }, index): Problem[] =>
    used.has(id) || meant.has(id)
      ? []
      : [
          {
            code: 'unused-source',
            pointer: `/${index}/id`,
            file: context.bibliographyFile ?? USUAL_FILE,
            found: `no figure has the source "${id}"`,
            allowed: 'every entry of the bibliography is used',
            fix: 'Name it where it was used, or take it out.',
          },
        ],
  );
}

const standInSources = ({ groups, errors }: ProblemContext['standIns']): string[] =>
  [...groups.flatMap((group) => Object.values(group)), ...errors].flatMap((part) =>
    typeof part === 'object' && typeof part.source === 'string' ? [part.source] : [],
  );

import { say, type Voice } from '@commensal/report';
import type { Level } from '@commensal/schema';
import { fieldLabel } from '../coverage/coverage-table.js';
import { topicsOf } from './rule-topics.js';
import type { Worth, WorthFinding } from './worth-finding.js';

const plural = (count: number, word: string): string => `${count} ${word}${count === 1 ? '' : 's'}`;

const LEVELS: readonly Level[] = ['error', 'warning', 'note'];

/** Errors, warnings and notes, those that there are. */
const countsOf = ({ findings }: Worth): string =>
  LEVELS.filter((level) => findings[level] > 0)
    .map((level) => plural(findings[level], level))
    .join(', ');

/** Of how many, in words. */
function beside({ mates, alone }: Worth, of: number): string {
  if (mates === 0) return 'of the species alone';
  return `${alone ? 'of the species alone and ' : ''}beside ${mates} of ${of} species`;
}

/** Why one field is worth finding out, as a sentence; the counts stand behind it. */
export function sayWorth(voice: Voice, one: Worth, mates: number): string {
  const label = fieldLabel(voice.catalogue, one.field);
  const topics = topicsOf(
    voice,
    one.rules.map(({ rule }) => rule),
  );
  const where = beside(one, mates);
  const why =
    one.why === 'missing'
      ? `without it, ${one.field === 'feeding.fishEating' ? 'how grave swallowing is' : topics} cannot be told ${where}`
      : `${one.standing === 'absent' ? 'no figure is on record, and within the band of what stands in' : `it is ${say(voice.catalogue, `basis.${one.standing}`)}, and within its band`} the answer on ${topics} changes ${where}`;
  return `${label} (${one.field}): ${why} [${countsOf(one)}].`;
}

/** What is worth finding out, most first; one sentence where nothing is. */
export function worthLines(voice: Voice, { worth, mates }: WorthFinding): string[] {
  return worth.map((one) => sayWorth(voice, one, mates));
}

/** How the counts came about, for below the list. */
export const worthNote = ({ mates, supposed }: WorthFinding): string =>
  [
    `Counted by running the rules in one tank of reference, on the species alone and beside ${mates} species, its own kind among them.`,
    ...(supposed === undefined
      ? []
      : [
          `Gaps hide others: what hangs on the rest was counted as if the missing fields were those of ${supposed}. None of that is in the record.`,
        ]),
  ].join(' ');

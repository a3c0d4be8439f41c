import type { Caution, Finding, StaleAcceptance, Summary, Versions } from '@commensal/schema';
import { say } from './catalogue.js';
import type { Depth } from './depth.js';
import type { Deeper } from './deeper.js';
import { type Group, grouped, sayGroup } from './groups.js';
import { heading, item, paragraph } from './layout.js';
import { sayCaution } from './sentences.js';
import type { Voice } from './voice.js';

/** A group as a paragraph, with what the depth of the report adds beneath it. */
export const groupText = (voice: Voice, group: Group, deeper: Pick<Deeper, 'group'>, more: string = ''): string =>
  [paragraph(`${sayGroup(voice, group)}${more}`, 4), ...deeper.group(group).map((line) => item(line, 6))].join('\n');

/** Those of the findings that are printed: notes only where asked for. */
export const printed = (findings: readonly Finding[], withNotes: boolean): Finding[] =>
  findings.filter(({ level }) => withNotes || level !== 'note');

/** The findings by outcome and level, each group under its own line; notes only where asked for. */
export function findingsText(
  voice: Voice,
  findings: readonly Finding[],
  withNotes: boolean,
  deeper: Pick<Deeper, 'group'> = { group: () => [] },
): string {
  const parts: string[] = [];
  for (const level of ['error', 'warning', 'note'] as const) {
    for (const outcome of ['failed', 'cantTell'] as const) {
      const these = printed(findings, withNotes).filter((finding) => finding.level === level && finding.outcome === outcome);
      if (these.length === 0) continue;
      const title = say(voice.catalogue, outcome === 'failed' ? 'text.failedOf' : 'text.cantTellOf', { level });
      const paragraphs = grouped(voice, these).map((group) => {
        const accepted = group.first.accepted;
        const text = accepted === undefined ? '' : ` (${say(voice.catalogue, 'text.accepted', { reason: accepted })})`;
        return groupText(voice, group, deeper, text);
      });
      parts.push([`  ${title}`, ...paragraphs].join('\n'));
    }
  }
  const notes = findings.filter((finding) => finding.level === 'note').length;
  if (notes > 0 && !withNotes)
    parts.push(paragraph(say(voice.catalogue, 'text.notesHidden', { notes, moreKey: parts.length > 0 ? 'more' : 'none' }), 2));
  return parts.join('\n\n');
}

/** Cautions under their heading; empty where there are none. */
export function cautionsText(voice: Voice, cautions: readonly Caution[]): string {
  if (cautions.length === 0) return '';
  return [heading(say(voice.catalogue, 'text.cautions')), ...cautions.map((caution) => paragraph(sayCaution(voice, caution), 2))].join(
    '\n',
  );
}

export const staleText = (voice: Voice, stale: readonly StaleAcceptance[]): string =>
  stale.map(({ key, why }) => paragraph(say(voice.catalogue, `text.stale.${why}`, { key }), 2)).join('\n');

/** Counts of everything, so that no doubt passes in silence. */
export function summaryText(voice: Voice, { failed, cantTell, accepted }: Summary): string {
  return paragraph(
    say(voice.catalogue, 'text.summary', {
      errors: failed.error,
      warnings: failed.warning,
      notes: failed.note,
      doubtErrors: cantTell.error,
      doubtWarnings: cantTell.warning,
      doubtNotes: cantTell.note,
      accepted,
    }),
    0,
  );
}

/** What the report was made with, and where to read what its figures rest on unless this is the place. */
export const versionsText = (voice: Voice, versions: Versions, depth: Depth = 'keeper'): string =>
  paragraph(say(voice.catalogue, 'text.versions', { ...versions, depthKey: depth }), 0);

import type { Caution, Finding, StaleAcceptance, Summary, Versions } from '@commensal/schema';
import { type Block, item, line, name, paragraph, type Section, setText, under } from './blocks.js';
import { say } from './catalogue.js';
import type { Depth } from './depth.js';
import type { Deeper } from './deeper.js';
import { type Group, grouped, sayGroup } from './groups.js';
import { sayCaution } from './sentences.js';
import type { Voice } from './voice.js';

/** A group as a paragraph, with what the depth of the report adds beneath it. */
export const groupBlocks = (voice: Voice, group: Group, deeper: Pick<Deeper, 'group'>, more: string = ''): Block[] => [
  paragraph(`${sayGroup(voice, group)}${more}`, 4),
  ...deeper.group(group).map((figures) => item(figures, 6)),
];

/** Those of the findings that are printed: notes only where asked for. */
export const printed = (findings: readonly Finding[], withNotes: boolean): Finding[] =>
  findings.filter(({ level }) => withNotes || level !== 'note');

const NO_DEPTH: Pick<Deeper, 'group'> = { group: () => [] };

/** The findings by outcome and level, each group under its own line; notes only where asked for. */
export function findingsSections(
  voice: Voice,
  findings: readonly Finding[],
  withNotes: boolean,
  deeper: Pick<Deeper, 'group'> = NO_DEPTH,
): Section[] {
  const sections: Section[] = [];
  for (const level of ['error', 'warning', 'note'] as const) {
    for (const outcome of ['failed', 'cantTell'] as const) {
      const these = printed(findings, withNotes).filter((finding) => finding.level === level && finding.outcome === outcome);
      if (these.length === 0) continue;
      const title = say(voice.catalogue, outcome === 'failed' ? 'text.failedOf' : 'text.cantTellOf', { level });
      const blocks = grouped(voice, these).flatMap((group) => {
        const accepted = group.first.accepted;
        const text = accepted === undefined ? '' : ` (${say(voice.catalogue, 'text.accepted', { reason: accepted })})`;
        return groupBlocks(voice, group, deeper, text);
      });
      sections.push([name(title), ...blocks]);
    }
  }
  const notes = findings.filter((finding) => finding.level === 'note').length;
  if (notes > 0 && !withNotes)
    sections.push([paragraph(say(voice.catalogue, 'text.notesHidden', { notes, moreKey: sections.length > 0 ? 'more' : 'none' }), 2)]);
  return sections;
}

/** The same as plain text. */
export const findingsText = (voice: Voice, findings: readonly Finding[], withNotes: boolean, deeper?: Pick<Deeper, 'group'>): string =>
  setText(findingsSections(voice, findings, withNotes, deeper));

/** Cautions under their heading; none where there are none. */
export const cautionsSections = (voice: Voice, cautions: readonly Caution[]): Section[] =>
  cautions.length === 0 ? [] : under(say(voice.catalogue, 'text.cautions'), [cautions.map((caution) => line(sayCaution(voice, caution)))]);

/** The same as plain text; empty where there are none. */
export const cautionsText = (voice: Voice, cautions: readonly Caution[]): string => setText(cautionsSections(voice, cautions));

export const staleSection = (voice: Voice, stale: readonly StaleAcceptance[]): Section =>
  stale.map(({ key, why }) => line(say(voice.catalogue, `text.stale.${why}`, { key })));

/** Counts of everything, so that no doubt passes in silence. */
const summaryBlock = (voice: Voice, { failed, cantTell, accepted }: Summary): Block =>
  paragraph(
    say(voice.catalogue, 'text.summary', {
      errors: failed.error,
      warnings: failed.warning,
      notes: failed.note,
      doubtErrors: cantTell.error,
      doubtWarnings: cantTell.warning,
      doubtNotes: cantTell.note,
      accepted,
    }),
  );

/** The same as plain text. */
export const summaryText = (voice: Voice, summary: Summary): string => setText([[summaryBlock(voice, summary)]]);

/** The counts, what the report was made with, and where to read what its figures rest on unless this is the place. */
export const lastSection = (voice: Voice, summary: Summary, versions: Versions, depth: Depth = 'keeper'): Section => [
  summaryBlock(voice, summary),
  paragraph(say(voice.catalogue, 'text.versions', { ...versions, depthKey: depth })),
];

import type { CheckReport, Situation } from '@commensal/schema';
import { say } from './catalogue.js';
import { deeperOf } from './deeper.js';
import type { TextOptions } from './depth.js';
import { cautionsText, findingsText, printed, staleText, summaryText, versionsText } from './findings-text.js';
import { heading, page, paragraph } from './layout.js';
import { sayDate, type Voice } from './voice.js';

/** A check as plain text: for a keeper, unless the options ask for more. */
export function checkText(voice: Voice, situation: Situation, report: CheckReport, options: TextOptions = {}): string {
  const { notes = false, depth } = options;
  const tell = (key: string, slots = {}): string => say(voice.catalogue, key, slots);
  const wishes = situation.wishes?.length ?? 0;
  const deeper = deeperOf(voice, situation, options);
  const findings = findingsText(voice, report.findings, notes, deeper);
  return page(
    [...(situation.title === undefined ? [] : [situation.title]), tell('check.heading', { date: sayDate(voice, report.date) })].join('\n'),
    findings === '' ? paragraph(tell('check.clear'), 0) : [heading(tell('check.findings')), findings].join('\n'),
    wishes === 0 ? '' : paragraph(tell('check.wishes', { wishes }), 0),
    staleText(voice, report.staleAcceptances),
    cautionsText(voice, report.cautions),
    ...deeper.sections(printed(report.findings, notes)),
    [summaryText(voice, report.summary), versionsText(voice, report.versions, depth)].join('\n'),
  );
}

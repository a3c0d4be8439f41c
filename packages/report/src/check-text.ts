import type { CheckReport, Situation } from '@commensal/schema';
import { markdownPage, paragraph, type Section, textPage, title, under } from './blocks.js';
import { say } from './catalogue.js';
import { deeperOf } from './deeper.js';
import type { TextOptions } from './depth.js';
import { cautionsSections, findingsSections, lastSection, printed, staleSection } from './findings-text.js';
import { sayDate, type Voice } from './voice.js';

/** A check as plain text: for a keeper, unless the options ask for more. */
export const checkText = (voice: Voice, situation: Situation, report: CheckReport, options: TextOptions = {}): string =>
  textPage(checkSections(voice, situation, report, options));

/** The same as Markdown. */
export const checkMarkdown = (voice: Voice, situation: Situation, report: CheckReport, options: TextOptions = {}): string =>
  markdownPage(checkSections(voice, situation, report, options));

function checkSections(voice: Voice, situation: Situation, report: CheckReport, options: TextOptions): Section[] {
  const { notes = false, depth } = options;
  const tell = (key: string, slots = {}): string => say(voice.catalogue, key, slots);
  const wishes = situation.wishes?.length ?? 0;
  const deeper = deeperOf(voice, situation, options);
  const findings = findingsSections(voice, report.findings, notes, deeper);
  return [
    [
      ...(situation.title === undefined ? [] : [title(situation.title)]),
      paragraph(tell('check.heading', { date: sayDate(voice, report.date) })),
    ],
    ...(findings.length === 0 ? [[paragraph(tell('check.clear'))]] : under(tell('check.findings'), findings)),
    wishes === 0 ? [] : [paragraph(tell('check.wishes', { wishes }))],
    staleSection(voice, report.staleAcceptances),
    ...cautionsSections(voice, report.cautions),
    ...deeper.sections(printed(report.findings, notes)),
    lastSection(voice, report.summary, report.versions, depth),
  ];
}

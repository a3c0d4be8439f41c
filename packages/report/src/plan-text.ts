import type { LeftOut, Plan, PlannedIntroduction, Situation } from '@commensal/schema';
import { say } from './catalogue.js';
import { cautionsText, findingsText, grouped, sayGroup, staleText, summaryText, versionsText } from './findings-text.js';
import { heading, item, page, paragraph } from './layout.js';
import { sayChange, sayOrderReason } from './sentences.js';
import { capital, sayDate, sayList, sayQuantity, type Voice } from './voice.js';

/** A plan as plain text for a keeper. */
export function planText(voice: Voice, situation: Situation, plan: Plan, withNotes: boolean = false): string {
  const tell = (key: string, slots = {}): string => say(voice.catalogue, key, slots);
  const wishes = plan.chosen.length + plan.leftOut.length;
  const counts = tell('plan.counts', {
    wishes,
    chosen: plan.chosen.length,
    leftOut: plan.leftOut.length,
  });
  const proof = plan.proven ? tell('plan.proven') : tell('plan.open', { gap: sayQuantity(voice, plan.gap, '1') });
  const introductions = plan.introductions.map((introduction) => introductionText(voice, introduction));
  const leftOut = plan.leftOut.map((wish) => leftOutText(voice, wish));
  const findings = findingsText(voice, plan.findings, withNotes);
  return page(
    [
      ...(situation.title === undefined ? [] : [situation.title]),
      paragraph(`${tell('plan.heading', { date: sayDate(voice, plan.date) })}. ${[counts, ...(wishes === 0 ? [] : [proof])].join(' ')}`, 0),
    ].join('\n'),
    [heading(tell('plan.whatGoesIn')), ...(introductions.length === 0 ? [`  ${tell('plan.nothing')}`] : introductions)].join('\n'),
    leftOut.length === 0 ? '' : [heading(tell('plan.leftOut')), ...leftOut].join('\n'),
    findings === '' ? '' : [heading(tell('plan.withThePlan')), findings].join('\n'),
    staleText(voice, plan.staleAcceptances),
    cautionsText(voice, plan.cautions),
    [summaryText(voice, plan.summary), versionsText(voice, plan.versions)].join('\n'),
  );
}

function introductionText(voice: Voice, introduction: PlannedIntroduction): string {
  const animals = introduction.animals.map(({ species, count, length }) =>
    paragraph(
      say(voice.catalogue, 'plan.line', {
        count,
        name: voice.names.speciesName(species),
        ...(length === undefined ? {} : { length: sayQuantity(voice, length.value, length.unit) }),
        each: count > 1 ? say(voice.catalogue, 'plan.each') : '',
      }),
      4,
    ),
  );
  const reasons = introduction.reasons.map((reason) => sayOrderReason(voice, reason)).join(' ');
  return [`  ${sayDate(voice, introduction.date)}`, ...animals, paragraph(reasons, 6)].join('\n');
}

function leftOutText(voice: Voice, { species, count, because, wouldNeed }: LeftOut): string {
  const name = capital(say(voice.catalogue, 'plan.leftOutName', { name: voice.names.speciesName(species), count }));
  const needs =
    wouldNeed.length === 0
      ? [paragraph(say(voice.catalogue, 'plan.noSingleChange'), 4)]
      : [
          paragraph(say(voice.catalogue, 'plan.wouldLetIn', { changes: wouldNeed.length }), 4),
          ...wouldNeed.map((change) => item(sayChange(voice, change), 6)),
        ];
  return [`  ${name}`, ...grouped(because).map((group) => paragraph(sayGroup(voice, group), 4)), ...needs].join('\n');
}

/** The names of the chosen species in a row; for a title or a notice. */
export const chosenList = (voice: Voice, plan: Plan): string =>
  sayList(
    voice,
    plan.chosen.map(({ species }) => voice.names.speciesName(species)),
  );

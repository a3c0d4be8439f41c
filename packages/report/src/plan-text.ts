import type { LeftOut, Plan, PlannedIntroduction, Situation } from '@commensal/schema';
import { say } from './catalogue.js';
import { type Deeper, deeperOf } from './deeper.js';
import type { TextOptions } from './depth.js';
import { cautionsText, findingsText, groupText, printed, staleText, summaryText, versionsText } from './findings-text.js';
import { grouped } from './groups.js';
import { heading, item, page, paragraph } from './layout.js';
import { sayChange, sayOrderReason } from './sentences.js';
import { capital, sayDate, sayList, sayQuantity, type Voice } from './voice.js';

/** A plan as plain text: for a keeper, unless the options ask for more. */
export function planText(voice: Voice, situation: Situation, plan: Plan, options: TextOptions = {}): string {
  const { notes = false, depth } = options;
  const deeper = deeperOf(voice, situation, options);
  const tell = (key: string, slots = {}): string => say(voice.catalogue, key, slots);
  const wishes = plan.chosen.length + plan.leftOut.length;
  const counts = tell('plan.counts', {
    wishes,
    chosen: plan.chosen.length,
    leftOut: plan.leftOut.length,
  });
  const proof = plan.proven ? tell('plan.proven') : tell('plan.open', { gap: sayQuantity(voice, plan.gap, '1') });
  const introductions = plan.introductions.map((introduction) => introductionText(voice, introduction, deeper));
  const leftOut = plan.leftOut.map((wish) => leftOutText(voice, wish, deeper));
  const findings = findingsText(voice, plan.findings, notes, deeper);
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
    ...deeper.sections([...plan.leftOut.flatMap(({ because }) => because), ...printed(plan.findings, notes)]),
    [summaryText(voice, plan.summary), versionsText(voice, plan.versions, depth)].join('\n'),
  );
}

function introductionText(voice: Voice, introduction: PlannedIntroduction, deeper: Deeper): string {
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
  const figures = deeper.reasons(introduction.reasons).map((line) => item(line, 8));
  return [`  ${sayDate(voice, introduction.date)}`, ...animals, paragraph(reasons, 6), ...figures].join('\n');
}

function leftOutText(voice: Voice, { species, count, because, wouldNeed }: LeftOut, deeper: Deeper): string {
  const name = capital(say(voice.catalogue, 'plan.leftOutName', { name: voice.names.speciesName(species), count }));
  const needs =
    wouldNeed.length === 0
      ? [paragraph(say(voice.catalogue, 'plan.noSingleChange'), 4)]
      : [
          paragraph(say(voice.catalogue, 'plan.wouldLetIn', { changes: wouldNeed.length }), 4),
          ...wouldNeed.map((change) => item(sayChange(voice, change), 6)),
        ];
  return [`  ${name}`, ...grouped(voice, because).map((group) => groupText(voice, group, deeper)), ...needs].join('\n');
}

/** The names of the chosen species in a row; for a title or a notice. */
export const chosenList = (voice: Voice, plan: Plan): string =>
  sayList(
    voice,
    plan.chosen.map(({ species }) => voice.names.speciesName(species)),
  );

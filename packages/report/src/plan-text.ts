import type { PlanChoice } from '@commensal/core';
import type { Plan, PlannedIntroduction, Situation } from '@commensal/schema';
import { item, line, markdownPage, name, paragraph, type Section, textPage, title, under } from './blocks.js';
import { say } from './catalogue.js';
import { daysToKeep } from './days-to-keep.js';
import { type Deeper, deeperOf } from './deeper.js';
import type { TextOptions } from './depth.js';
import { cautionsSections, findingsSections, lastSection, printed, staleSection } from './findings-text.js';
import { impossibleSections } from './impossible-text.js';
import { leftOutSection } from './left-out-text.js';
import { otherwiseSection } from './otherwise-text.js';
import { sayOrderReason } from './sentences.js';
import { sayDate, sayList, sayQuantity, saySentence, type Voice } from './voice.js';

/** A plan as plain text: for a keeper, unless the options ask for more. */
export const planText = (voice: Voice, situation: Situation, plan: Plan, options: TextOptions = {}): string =>
  textPage(planSections(voice, situation, plan, options));

/** The same as Markdown. */
export const planMarkdown = (voice: Voice, situation: Situation, plan: Plan, options: TextOptions = {}): string =>
  markdownPage(planSections(voice, situation, plan, options));

/**
 * A plan in two parts, the first of which tells what goes in and when, before it is known why the rest is left out. Put together they are
 * what `planText` or `planMarkdown` makes of the plan. `leftOut` counts the wishes that are left out. Not for a plan that is impossible.
 */
export function planInParts(
  format: 'text' | 'markdown',
  voice: Voice,
  situation: Situation,
  options: TextOptions = {},
): { readonly first: (choice: PlanChoice, leftOut: number) => string; readonly rest: (plan: Plan) => string } {
  const deeper = deeperOf(voice, situation, options);
  const page = format === 'markdown' ? markdownPage : textPage;
  return {
    first: (choice, leftOut) =>
      page([...openingSections(voice, situation, countsOf(voice, choice, leftOut), choice), ...choiceSections(voice, choice, deeper)]),
    rest: (plan) => `\n${page(restSections(voice, plan, leftOutOf(situation, plan), options, deeper))}`,
  };
}

function planSections(voice: Voice, situation: Situation, plan: Plan, options: TextOptions): Section[] {
  const deeper = deeperOf(voice, situation, options);
  const leftOut = leftOutOf(situation, plan);
  const { impossible } = plan;
  const counts = impossible === undefined ? countsOf(voice, plan, plan.leftOut.length) : [say(voice.catalogue, 'plan.none')];
  return [
    ...openingSections(voice, situation, counts, plan),
    ...(impossible === undefined ? choiceSections(voice, plan, deeper) : impossibleSections(voice, impossible, leftOut, deeper)),
    ...restSections(voice, plan, leftOut, options, deeper),
  ];
}

/** Where there is no plan, what need not be in is not looked at yet, and what could be in alone is left out for no reason of its own. */
function leftOutOf({ wishes }: Situation, { impossible, leftOut }: Plan): Plan['leftOut'] {
  if (impossible === undefined) return leftOut;
  const musts = new Set(wishes?.filter(({ must }) => must === true).map(({ species }) => species));
  return leftOut.filter(({ species, because }) => musts.has(species) && because.length > 0);
}

const openingSections = (voice: Voice, situation: Situation, counts: readonly string[], { date }: Pick<Plan, 'date'>): Section[] => [
  [
    ...(situation.title === undefined ? [] : [title(situation.title)]),
    paragraph(`${say(voice.catalogue, 'plan.heading', { date: sayDate(voice, date) })}. ${counts.join(' ')}`),
  ],
];

/** What goes in, on which days, and the days to keep. */
function choiceSections(voice: Voice, { introductions, order }: Pick<Plan, 'introductions' | 'order'>, deeper: Deeper): Section[] {
  const tell = (key: string): string => say(voice.catalogue, key);
  const told = introductions.flatMap((introduction) => introductionSection(voice, introduction, deeper));
  const orderOpen = order.proven || introductions.length < 2 ? [] : [paragraph(tell('plan.orderOpen'), 2)];
  return [
    ...under(tell('plan.whatGoesIn'), [told.length === 0 ? [paragraph(tell('plan.nothing'), 2)] : [...told, ...orderOpen]]),
    ...daysToKeep(voice, introductions),
  ];
}

function restSections(
  voice: Voice,
  plan: Plan,
  leftOut: Plan['leftOut'],
  { notes = false, depth }: TextOptions,
  deeper: Deeper,
): Section[] {
  const tell = (key: string): string => say(voice.catalogue, key);
  const otherwise = otherwiseSection(voice, plan);
  return [
    ...(leftOut.length === 0 ? [] : under(tell('plan.leftOut'), [leftOut.flatMap((wish) => leftOutSection(voice, wish, deeper))])),
    ...(otherwise.length === 0 ? [] : under(tell('plan.otherwise'), [otherwise])),
    ...under(tell('plan.withThePlan'), findingsSections(voice, plan.findings, notes, deeper)),
    staleSection(voice, plan.staleAcceptances),
    ...cautionsSections(voice, plan.cautions),
    ...deeper.sections([
      ...(plan.impossible?.because ?? []),
      ...leftOut.flatMap(({ because }) => because),
      ...printed(plan.findings, notes),
    ]),
    lastSection(voice, plan.summary, plan.versions, depth),
  ];
}

/** How many of the wishes are granted, and whether that is the best there is. */
function countsOf(
  voice: Voice,
  { chosen, proven, gap, equals }: Pick<Plan, 'chosen' | 'proven' | 'gap' | 'equals'>,
  leftOut: number,
): string[] {
  const { catalogue } = voice;
  const wishes = chosen.length + leftOut;
  const counts = say(catalogue, 'plan.counts', { wishes, chosen: chosen.length, leftOut });
  if (wishes === 0) return [counts];
  if (!proven) return [counts, say(catalogue, 'plan.open', { gap: sayQuantity(voice, gap, '1') })];
  const others = equals.weighed - 1;
  const rivals =
    others > 0
      ? [say(catalogue, 'plan.equals', { others, allKey: equals.all ? 'all' : 'some' })]
      : equals.all
        ? []
        : [say(catalogue, 'plan.equalsOpen')];
  return [counts, say(catalogue, 'plan.proven'), ...rivals];
}

function introductionSection(voice: Voice, { date, latest, animals, reasons }: PlannedIntroduction, deeper: Deeper): Section {
  const lines = animals.map(({ species, count, length, purchasedOn }) =>
    line(
      say(voice.catalogue, 'plan.line', {
        count,
        name: voice.names.speciesName(species),
        ...(length === undefined ? {} : { length: sayQuantity(voice, length.value, length.unit) }),
        each: count > 1 ? say(voice.catalogue, 'plan.each') : '',
        ...(purchasedOn === undefined || purchasedOn >= date ? {} : { purchased: sayDate(voice, purchasedOn) }),
      }),
      4,
    ),
  );
  // A last day without a reason among its own comes from what goes in later.
  const isForLater = latest !== undefined && !reasons.some(({ message, data }) => message === 'order.latest' && data.day?.date === latest);
  const told = [
    ...reasons.map((reason) => sayOrderReason(voice, reason)),
    ...(isForLater ? [saySentence(voice, 'plan.inTime', { day: sayDate(voice, latest) })] : []),
  ].join(' ');
  return [name(sayDate(voice, date)), ...lines, paragraph(told, 6), ...deeper.reasons(reasons).map((figures) => item(figures, 8))];
}

/** The names of the chosen species in a row; for a title or a notice. */
export const chosenList = (voice: Voice, plan: Plan): string =>
  sayList(
    voice,
    plan.chosen.map(({ species }) => voice.names.speciesName(species)),
  );

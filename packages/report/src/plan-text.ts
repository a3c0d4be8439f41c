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

function planSections(voice: Voice, situation: Situation, plan: Plan, options: TextOptions): Section[] {
  const { notes = false, depth } = options;
  const deeper = deeperOf(voice, situation, options);
  const tell = (key: string, slots = {}): string => say(voice.catalogue, key, slots);
  const introductions = plan.introductions.flatMap((introduction) => introductionSection(voice, introduction, deeper));
  const orderOpen = plan.order.proven || plan.introductions.length < 2 ? [] : [paragraph(tell('plan.orderOpen'), 2)];
  // Where there is no plan, what need not be in is not looked at yet, and what could be in alone is left out for no reason of its own.
  const musts = new Set(situation.wishes?.filter(({ must }) => must === true).map(({ species }) => species));
  const leftOut =
    plan.impossible === undefined ? plan.leftOut : plan.leftOut.filter(({ species, because }) => musts.has(species) && because.length > 0);
  const otherwise = otherwiseSection(voice, plan);
  const impossible = plan.impossible === undefined ? [] : impossibleSections(voice, plan.impossible, leftOut, deeper);
  return [
    [
      ...(situation.title === undefined ? [] : [title(situation.title)]),
      paragraph(`${tell('plan.heading', { date: sayDate(voice, plan.date) })}. ${countsOf(voice, plan).join(' ')}`),
    ],
    ...impossible,
    ...(plan.impossible === undefined
      ? under(tell('plan.whatGoesIn'), [
          introductions.length === 0 ? [paragraph(tell('plan.nothing'), 2)] : [...introductions, ...orderOpen],
        ])
      : []),
    ...daysToKeep(voice, plan.introductions),
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
function countsOf(voice: Voice, { chosen, leftOut, proven, gap, equals, impossible }: Plan): string[] {
  const { catalogue } = voice;
  if (impossible !== undefined) return [say(catalogue, 'plan.none')];
  const wishes = chosen.length + leftOut.length;
  const counts = say(catalogue, 'plan.counts', { wishes, chosen: chosen.length, leftOut: leftOut.length });
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

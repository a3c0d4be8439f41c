/** Everything that the cases make the library say, each sentence with the slots it was given. */
import { allRules } from './keys.js';
import { check, plan, rules, stockOf } from '@commensal/core';
import {
  type Catalogue,
  grouped,
  has,
  namesIn,
  sayCaution,
  sayChange,
  sayFinding,
  sayGroup,
  sayOrderReason,
  type Slots,
  type Voice,
} from '@commensal/report';
import { en } from '@commensal/report/en';
import type { Finding, OrderReason } from '@commensal/schema';
import { changesByHand, namesByHand, reasonsByHand } from './by-hand.js';
import { type Case, cases, planCases } from './situations.js';

/** One saying of one sentence. */
export interface Saying {
  readonly key: string;
  readonly slots: Slots;
  readonly text: string;
  readonly from: string;
  /** Phrases stand inside other sentences. */
  readonly phrase: boolean;
}

/** A catalogue that notes down what fills its sentences. */
function noting(of: Catalogue, note: (key: string, slots: Slots) => void): Catalogue {
  const messages = Object.fromEntries(
    Object.entries(of.messages).map(([key, sentence]) => [
      key,
      (slots: Slots): string => {
        note(key, slots);
        return sentence(slots);
      },
    ]),
  );
  return { language: of.language, messages };
}

/** Sayings of one key and one way to fill it are kept once: the numbers in them make no difference to the slots. */
function recorder(units: Voice['units'], of: Catalogue) {
  const sayings: Saying[] = [];
  const perShape = new Map<string, number>();
  let last: Slots = {};
  const catalogue = noting(of, (_, slots) => {
    last = slots;
  });
  return {
    sayings,
    catalogue,
    units,
    /** Notes a saying; the sentence itself is the last thing the catalogue says. */
    say(key: string, from: string, phrase: boolean, shape: string, speak: () => string): void {
      const name = `${key} ${shape}`;
      const times = perShape.get(name) ?? 0;
      if (times >= MOST_ALIKE) return;
      perShape.set(name, times + 1);
      const text = speak();
      sayings.push({ key, slots: last, text, from, phrase });
    },
  };
}

/** Enough to meet names and numbers of all sorts, few enough to be quick. */
const MOST_ALIKE = 40;

type Recorder = ReturnType<typeof recorder>;

const shapeOf = ({ subjects, data, level, when }: Finding): string =>
  [
    level,
    when === null,
    subjects
      .map(({ role }) => role)
      .join()
      .slice(0, 40),
    ...Object.entries(data).map(([name, { keys }]) => `${name}=${keys ?? ''}`),
  ].join(' ');

function sayFindings(into: Recorder, voice: Voice, findings: readonly Finding[], from: string): void {
  for (const finding of findings) into.say(finding.message, from, false, shapeOf(finding), () => sayFinding(voice, finding));
  for (const group of grouped(voice, findings)) {
    if (group.others.length === 0 || group.by !== 'several') continue;
    // The sentence for several is the last thing said of them.
    const [key = ''] = ['several', 'severalNotes']
      .map((ending) => `${group.first.message}.${ending}`)
      .filter((one) => has(into.catalogue, one));
    into.say(key, from, false, shapeOf(group.first), () => sayGroup(voice, group));
  }
}

function speakCheck(into: Recorder, { name, situation, library }: Case): void {
  const { stock, problems } = stockOf(situation, library);
  if (problems.length > 0) throw new Error(`${name}: ${JSON.stringify(problems)}`);
  const voice: Voice = { ...into, names: namesIn(situation, library, into.catalogue.language) };
  const { findings, cautions } = check(stock, allRules);
  sayFindings(into, voice, findings, name);
  for (const caution of cautions) into.say(caution.message, name, false, '', () => sayCaution(voice, caution));
}

const wordOf = ({ data }: OrderReason): string => data.reason?.keys?.[0] ?? '';

function speakPlan(into: Recorder, { name, situation, library }: Case): void {
  const planned = plan(situation, library, rules);
  const newcomers = planned.introductions.flatMap(({ animals }) => animals);
  const voice: Voice = {
    ...into,
    names: namesIn(situation, library, into.catalogue.language, [...planned.leftOut.map(({ species }) => ({ species })), ...newcomers]),
  };
  sayFindings(into, voice, [...planned.findings, ...planned.leftOut.flatMap(({ because }) => because)], name);
  for (const { reasons } of planned.introductions) {
    for (const reason of reasons) into.say(reason.message, name, false, wordOf(reason), () => sayOrderReason(voice, reason));
  }
  for (const { wouldNeed, wouldNeedTogether } of planned.leftOut) {
    for (const change of [...wouldNeed, ...wouldNeedTogether])
      into.say(`change.${change.kind}`, name, true, '', () => sayChange(voice, change));
  }
}

function speakByHand(into: Recorder): void {
  const voice: Voice = { ...into, names: namesByHand(into.catalogue.language) };
  for (const reason of reasonsByHand) into.say(reason.message, 'by hand', false, wordOf(reason), () => sayOrderReason(voice, reason));
  for (const change of changesByHand) into.say(`change.${change.kind}`, 'by hand', true, 'by hand', () => sayChange(voice, change));
}

export function spoken(units: Voice['units'], of: Catalogue = en): readonly Saying[] {
  const into = recorder(units, of);
  for (const one of cases) speakCheck(into, one);
  for (const one of planCases) speakPlan(into, one);
  speakByHand(into);
  return into.sayings;
}

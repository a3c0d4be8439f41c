import type { Datum, Finding } from '@commensal/schema';
import { has, say } from './catalogue.js';
import { findingSlots, saidSlots, sayFinding } from './sentences.js';
import { capital, dataSlots, sayAnimal, sayDate, sayList, sayQuantity, type Voice } from './voice.js';

/** Findings that are told in one paragraph. */
export interface Group {
  readonly first: Finding;
  readonly others: readonly Finding[];
  /** What differs from one to the next: the last animal that is named, the first, or any, where a sentence tells of several. */
  readonly by: 'last' | 'first' | 'several';
}

type Subject = Finding['subjects'][number];

/** The animals of a finding; of two in one role, the one that does it first. */
function animalsOf({ subjects, data }: Finding): readonly Subject[] {
  const [one, other] = subjects;
  return one !== undefined && other !== undefined && subjects.length === 2 && data.aggressor?.animal === other.id ? [other, one] : subjects;
}

const lastOf = (finding: Finding): string => animalsOf(finding).at(-1)?.id ?? '';
const firstOf = (finding: Finding): string => animalsOf(finding)[0]?.id ?? '';

/** Findings that say the same but for the animals stand together; never those that were accepted. */
export function grouped(voice: Voice, findings: readonly Finding[]): Group[] {
  const alone = findings.map((first): Group => ({ first, others: [], by: severalKey(voice, first) === undefined ? 'last' : 'several' }));
  const byLast = gathered(alone, ({ first, by }) => (by === 'several' ? sentenceOfSeveral(voice, first) : meaningButForLast(voice, first)));
  return gathered(
    byLast,
    ({ first, others, by }) => (by === 'several' || others.length > 0 ? undefined : meaningButForFirst(first)),
    'first',
  );
}

/** Groups under one key become one, where the first of them stood. */
function gathered(groups: readonly Group[], keyOf: (group: Group) => string | undefined, by?: Group['by']): Group[] {
  const byKey = new Map<string, [Group, ...Group[]]>();
  groups.forEach((group, at) => {
    const key = (group.first.accepted === undefined ? keyOf(group) : undefined) ?? `alone ${at}`;
    const same = byKey.get(key);
    if (same === undefined) byKey.set(key, [group]);
    else same.push(group);
  });
  return [...byKey.values()].map(([group, ...more]) =>
    more.length === 0 ? group : { first: group.first, others: more.map(({ first }) => first), by: by ?? group.by },
  );
}

/** No name that is printed. */
const SOMEONE = '\u0001';

/** A voice that has no name for an animal and its species. */
function without(voice: Voice, animal: string): Voice {
  const species = voice.names.speciesOf(animal);
  return {
    ...voice,
    names: {
      ...voice.names,
      givenName: (one) => (one === animal ? SOMEONE : voice.names.givenName(one)),
      speciesName: (one) => (one === species ? SOMEONE : voice.names.speciesName(one)),
    },
  };
}

/** All that is said of one animal but its name; of a pair the words, besides numbers and days, which are named for each. */
function meaningButForLast(voice: Voice, finding: Finding): string | undefined {
  const { message, level, outcome, when } = finding;
  const [first, last, third] = animalsOf(finding);
  if (first === undefined || third !== undefined) return undefined;
  return last === undefined
    ? JSON.stringify([message, level, outcome, first.role, when, sayFinding(without(voice, first.id), finding)])
    : JSON.stringify([message, level, outcome, first, last.role, wordsOf(finding, last.id)]);
}

/** The same of the first; where there are more than two, with all numbers and days. */
function meaningButForFirst(finding: Finding): string | undefined {
  const { message, level, outcome, data, when } = finding;
  const [first, ...rest] = animalsOf(finding);
  if (first === undefined || rest.length === 0) return undefined;
  const figures =
    rest.length === 1
      ? wordsOf(finding, first.id)
      : [when, ...Object.entries(data).map(([name, datum]) => [name, differing(datum, first.id)])];
  return JSON.stringify([message, level, outcome, first.role, rest, figures]);
}

const differing = (datum: Datum, id: string): unknown => (datum.animal === id ? 'differs' : datum);

const wordsOf = ({ data }: Finding, differs: string): unknown[] =>
  Object.entries(data).map(([name, { keys, animal }]) => [name, keys, animal === differs ? 'differs' : animal]);

/** The key of the sentence that tells of several findings at once; some have one for what is only good to know. */
const severalKey = ({ catalogue }: Voice, { message, level }: Finding): string | undefined =>
  [`${message}.several`, ...(level === 'note' ? [`${message}.severalNotes`] : [])].find((key) => has(catalogue, key));

/** The sentence for several without its list: what has to be the same of each. */
const sentenceOfSeveral = (voice: Voice, finding: Finding): string =>
  [
    finding.level,
    finding.outcome,
    say(voice.catalogue, severalKey(voice, finding) ?? '', { ...findingSlots(voice, finding), list: '', all: '' }),
  ].join(' ');

/** A group as a paragraph. */
export function sayGroup(voice: Voice, group: Group): string {
  const { first, others, by } = group;
  if (others.length === 0) return sayFinding(voice, first);
  if (by === 'several') return saySeveral(voice, group);
  const list = sayList(
    voice,
    others.map((finding) => sayWithDetails(voice, finding, by === 'first' ? firstOf(finding) : lastOf(finding), first)),
  );
  // Who does it to whom stays clear only with both named.
  const isPair = by === 'first' && first.subjects.length === 2;
  const more = isPair
    ? say(voice.catalogue, 'plan.sameInstead', { list, name: sayAnimal(voice, firstOf(first)) })
    : say(voice.catalogue, 'plan.sameFor', { list });
  return `${sayFinding(voice, first)} ${more}`;
}

/** An animal, and behind it what holds for it and not for the one that was told of; for each the length that is safe. */
function sayWithDetails(voice: Voice, finding: Finding, animal: string, told?: Finding): string {
  const { when, data } = finding;
  const { safeLength, missingRock } = data;
  const quantity = ({ value = 0, unit = '1' }: Datum): string => sayQuantity(voice, value, unit);
  const says = (slot: string): boolean => told !== undefined && saidSlots(voice, told).has(slot);
  const details = [
    ...(when === null || when === told?.when ? [] : [say(voice.catalogue, 'plan.from', { when: sayDate(voice, when) })]),
    ...(safeLength === undefined ? [] : [say(voice.catalogue, 'plan.orMore', { safeLength: quantity(safeLength) })]),
    ...(missingRock === undefined || !says('missingRock') || missingRock.value === told?.data.missingRock?.value
      ? []
      : [say(voice.catalogue, 'plan.moreRock', { missingRock: quantity(missingRock) })]),
  ];
  return withDetails(voice, sayAnimal(voice, animal), details);
}

function withDetails(voice: Voice, name: string, details: readonly string[]): string {
  const joined = details.length === 0 ? undefined : details.reduce((one, other) => say(voice.catalogue, 'plan.details', { one, other }));
  return say(voice.catalogue, 'plan.other', { name, ...(joined === undefined ? {} : { details: joined }) });
}

/** The sentence for several: with `list`, an item for each that differs, and `all`, every animal that is part of it. */
function saySeveral(voice: Voice, { first, others }: Group): string {
  const findings = [first, ...others];
  const key = severalKey(voice, first) ?? '';
  const greatest = Object.fromEntries(
    Object.entries(first.data).flatMap(([name, { value, unit }]) =>
      value === undefined || unit === undefined
        ? []
        : [[`${name}Greatest`, { value: Math.max(...findings.map(({ data }) => data[name]?.value ?? value)), unit }]],
    ),
  );
  const slots = { ...findingSlots(voice, first), ...dataSlots(voice, greatest), all: sayAll(voice, findings) };
  return capital(say(voice.catalogue, key, { ...slots, list: listOf(voice, findings) }));
}

/** Items that read the same but for the last animal are one, with all of these in `others`. */
function listOf(voice: Voice, findings: readonly Finding[]): string {
  const key = `${(findings[0] as Finding).message}.one`;
  if (!has(voice.catalogue, key)) return '';
  const items = new Map<string, Finding[]>();
  for (const finding of findings) {
    const text = say(voice.catalogue, key, { ...findingSlots(voice, finding), others: '' });
    items.set(text, [...(items.get(text) ?? []), finding]);
  }
  return [...items.values()]
    .map((same) => {
      const others = sayList(
        voice,
        same.map((finding) => sayWithDetails(voice, finding, lastOf(finding))),
      );
      return say(voice.catalogue, key, { ...findingSlots(voice, same[0] as Finding), others });
    })
    .reduce((one, other) => say(voice.catalogue, 'plan.items', { one, other }));
}

/** Every animal of some findings; by day where the data give one for its role (`earlierDay`). */
function sayAll(voice: Voice, findings: readonly Finding[]): string {
  const days = new Map<string, string>();
  for (const { subjects, data } of findings)
    for (const { id, role } of subjects) if (!days.get(id)) days.set(id, data[`${role}Day`]?.date ?? '');
  const names = (of: string): string =>
    sayList(
      voice,
      [...days].flatMap(([id, day]) => (day === of ? [sayAnimal(voice, id)] : [])),
    );
  return [...new Set(days.values())]
    .sort()
    .map((day) => withDetails(voice, names(day), day === '' ? [] : [sayDate(voice, day)]))
    .reduce((one, other) => say(voice.catalogue, 'plan.items', { one, other }));
}

/** What tells a finding from the others of its group. */
export function labelOf(voice: Voice, { first, others, by }: Group, finding: Finding): string {
  if (by === 'last') return sayAnimal(voice, lastOf(finding));
  if (by === 'first') return sayAnimal(voice, firstOf(finding));
  const differ = (of: (finding: Finding) => string): boolean => new Set([first, ...others].map(of)).size > others.length;
  const isOfOneRole = finding.subjects.every(({ role }) => role === finding.subjects[0]?.role);
  const named = isOfOneRole
    ? finding.subjects.map(({ id }) => id)
    : differ(firstOf)
      ? [firstOf(finding)]
      : differ(lastOf)
        ? [lastOf(finding)]
        : [firstOf(finding), lastOf(finding)];
  return sayList(
    voice,
    named.map((id) => sayAnimal(voice, id)),
  );
}

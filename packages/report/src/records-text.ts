import type { Finding, RuleDescription, SpeciesRecord, StandInGroup, StandIns } from '@commensal/schema';
import { recordOf, weakest } from '@commensal/core';
import { item, name as titled, type Section, under } from './blocks.js';
import { has, say } from './catalogue.js';
import type { Grounds } from './depth.js';
import { joined } from './labels.js';
import { factsAt, type Recorded, sayRecorded } from './recorded.js';
import type { References } from './references.js';
import { capital, sayList, type Voice } from './voice.js';

/** The parts of a record that rules read; what else they need stands in the situation. */
const GROUPS: ReadonlySet<string> = new Set([
  'kinGroup',
  'size',
  'growth',
  'shape',
  'feeding',
  'conduct',
  'needs',
  'introduction',
  'lifeCycle',
]);

/** Whether a rule's need is a field of a species record. */
export const isOfRecord = (need: string): boolean => GROUPS.has(need.split('.')[0] ?? '');

/** Groups of fields of which each is looked for by itself. */
const PARTS: Readonly<Record<string, readonly string[]>> = { growth: ['growth.asymptoticLength', 'growth.rate'] };

/** Figures that those of relatives stand in for, by field. */
const STAND_INS = {
  'size.totalPerStandard': 'totalPerStandard',
  'shape.bodyDepth': 'bodyDepth',
  'shape.lowerJaw': 'lowerJaw',
  'growth.rate': 'growthRate',
} as const;

const hasStandIn = (field: string): field is keyof typeof STAND_INS => Object.hasOwn(STAND_INS, field);

/** The nearest relatives that have a figure for it, the genus before the family. */
function standInFor(standIns: StandIns | undefined, { taxon, form }: SpeciesRecord, field: string): [StandInGroup, Recorded] | undefined {
  if (!hasStandIn(field) || (field === 'size.totalPerStandard' && form !== 'fish')) return undefined;
  for (const rank of ['genus', 'family'] as const) {
    const group = standIns?.groups.find((one) => one.rank === rank && one.name === taxon[rank]);
    const figure = group?.[STAND_INS[field]];
    if (group !== undefined && figure !== undefined) return [group, { ...figure }];
  }
  return undefined;
}

/** What the records say of the species that findings are about, as far as the rules that found something read it. */
export function recordsSections(
  voice: Voice,
  { rules, library }: Grounds,
  findings: readonly Finding[],
  references: References,
): Section[] {
  const readBy = new Map<string, Set<string>>();
  for (const { rule, subjects } of findings) {
    for (const { id } of subjects) {
      const species = voice.names.speciesOf(id);
      readBy.set(species, (readBy.get(species) ?? new Set()).add(rule));
    }
  }
  const told = [...readBy].map(([species, ids]) => ({
    title: capital(voice.names.speciesName(species)),
    record: recordOf(library, species),
    rules: rules.filter(({ id }) => ids.has(id)),
  }));
  told.sort((one, other) => one.title.localeCompare(other.title, voice.catalogue.language));
  const parts = told.flatMap(({ title, record, rules: readers }) =>
    record === undefined ? [] : [speciesSection(voice, title, record, readers, library.standIns, references)],
  );
  return under(say(voice.catalogue, 'depth.records'), parts);
}

function speciesSection(
  voice: Voice,
  title: string,
  record: SpeciesRecord,
  readers: readonly RuleDescription[],
  standIns: StandIns | undefined,
  references: References,
): Section {
  const { scientificName } = record.taxon;
  const head = say(voice.catalogue, 'depth.species', {
    name: title,
    ...(title === scientificName ? {} : { scientificName }),
    rules: sayList(
      voice,
      readers.map(({ id }) => id),
    ),
  });
  // A group and one of its fields may both be needed; each fact is told once.
  const needs = [...new Set(readers.flatMap((rule) => rule.needs.flatMap((need) => PARTS[need] ?? [need])).filter(isOfRecord))];
  const facts = new Map(needs.flatMap((need) => factsAt(record, need)).map((fact) => [fact.field, fact]));
  const lines = [...facts.values()].flatMap(({ field, entries }) => factLines(voice, field, entries, references));
  const lacking = needs.filter((need) => factsAt(record, need).length === 0);
  const standing = lacking.flatMap((field) => {
    const line = insteadOf(voice, record, field, references) ?? standInLine(voice, record, field, standIns, references);
    return line === undefined ? [] : [{ field, line }];
  });
  const unknown = lacking.filter((field) => !standing.some((one) => one.field === field));
  const list = joined(
    voice.catalogue,
    unknown.map((field) => sayField(voice, field)),
  );
  return [
    titled(head),
    ...[...lines, ...standing.map(({ line }) => line), ...(list === '' ? [] : [say(voice.catalogue, 'depth.notOnRecord', { list })])].map(
      (text) => item(text),
    ),
  ];
}

/** What a missing field is taken from within the record. */
function insteadOf(voice: Voice, record: SpeciesRecord, field: string, references: References): string | undefined {
  if (field !== 'growth.asymptoticLength') return undefined;
  // The formula from the greatest length holds for fishes.
  const [fact] = ['size.maximum', 'size.captiveAdult']
    .filter((name) => record.form === 'fish' || name !== 'size.maximum')
    .flatMap((name) => factsAt(record, name));
  const entry = fact?.entries[0];
  if (fact === undefined || entry === undefined) return undefined;
  const value = say(voice.catalogue, 'depth.instead', { label: sayField(voice, fact.field), value: sayRecorded(voice, fact.field, entry) });
  const basis = fact.field === 'size.maximum' ? weakest('derived', entry.basis) : entry.basis;
  return factLine(voice, field, value, { ...entry, basis }, references);
}

/** A figure of relatives is imputed, however well it is known of them. */
function standInLine(
  voice: Voice,
  record: SpeciesRecord,
  field: string,
  standIns: StandIns | undefined,
  references: References,
): string | undefined {
  const found = standInFor(standIns, record, field);
  if (found === undefined) return undefined;
  const [{ rank, name }, figure] = found;
  const value = say(voice.catalogue, 'depth.standsIn', { rank, name, value: sayRecorded(voice, field, figure) });
  return factLine(voice, field, value, { ...figure, basis: 'imputed' }, references);
}

/** What a field is called; one without a text, such as a third party's, by its name. */
const sayField = (voice: Voice, field: string): string =>
  has(voice.catalogue, `field.${field}`)
    ? say(voice.catalogue, 'depth.field', { label: say(voice.catalogue, `field.${field}`), field })
    : field;

/** Entries of a list that rest on the same are one line. */
function factLines(voice: Voice, field: string, entries: readonly Recorded[], references: References): string[] {
  const alike = new Map<string, Recorded[]>();
  for (const entry of entries) {
    const rests = JSON.stringify([entry.basis, entry.source, entry.formula, entry.note]);
    alike.set(rests, [...(alike.get(rests) ?? []), entry]);
  }
  return [...alike.values()].map((same) => {
    const value = joined(
      voice.catalogue,
      same.map((entry) => sayRecorded(voice, field, entry)),
    );
    return factLine(voice, field, value, same[0] as Recorded, references);
  });
}

function factLine(voice: Voice, field: string, value: string, { basis, source, formula, note }: Recorded, references: References): string {
  const remark = [formula, note].filter((one) => one !== undefined).join('. ');
  return joined(voice.catalogue, [
    say(voice.catalogue, 'depth.fact', { label: sayField(voice, field), value }),
    say(voice.catalogue, `basis.${basis}`),
    ...(source === undefined ? [] : [references.short(source)]),
    ...(remark === '' ? [] : [say(voice.catalogue, 'depth.remark', { remark })]),
  ]);
}

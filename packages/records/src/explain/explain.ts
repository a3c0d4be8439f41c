import { BASES, cautionsOf, describeRule, type Library, rules, standIn, weakest } from '@commensal/core';
import {
  heading,
  item,
  markdownPage,
  paragraph,
  type References,
  referencesIn,
  sayCaution,
  say,
  type Section,
  textPage,
  title,
  type Voice,
} from '@commensal/report';
import type { Basis, CslItem, SpeciesRecord } from '@commensal/schema';
import { fieldLabel } from '../coverage/coverage-table.js';
import { FIELDS } from '../coverage/fields.js';
import { type Standing, standingOf } from '../field-at.js';
import { lookUpPages } from '../look-up-pages.js';
import { lookAt } from './meetings.js';
import { inRow } from './prose.js';
import { topicsOf } from './rule-topics.js';
import * as told from './told.js';
import { voiceFor } from './voice-for.js';
import { type WorthFinding, worthFinding } from './worth-finding.js';
import { worthLines, worthNote } from './worth-text.js';

/** One record in prose, before it is set as text or Markdown. */
export interface Explained {
  readonly id: string;
  /** What each field rests on. */
  readonly standings: Readonly<Record<string, Standing>>;
  readonly worth: WorthFinding;
  readonly sections: readonly Section[];
}

const IN_WORDS: Readonly<Record<Basis, string>> = {
  measured: 'published for this species',
  derived: 'computed from published figures',
  imputed: 'taken from relatives',
  practice: 'common practice without a source',
  recalled: 'from memory, unchecked',
};

/** How many fields rest on what, as one sentence. */
function howWell(standings: Readonly<Record<string, Standing>>): string {
  const count = (standing: Standing): number => Object.values(standings).filter((one) => one === standing).length;
  const held = FIELDS.length - count('absent');
  const parts = BASES.flatMap((basis) =>
    count(basis) === 0 ? [] : [`${count(basis)} ${count(basis) === 1 ? 'is' : 'are'} ${IN_WORDS[basis]}`],
  );
  const none = count('none') === 0 ? [] : [`${count('none')} ${count('none') === 1 ? 'is a list' : 'are lists'} known to be empty`];
  return `Of ${FIELDS.length} fields that a record can hold, it holds ${held}. Of these, ${inRow([...parts, ...none])}.`;
}

/** The fields of a record that a rule needs: a group stands for all its fields. */
const fieldsFor = (needs: readonly string[]): string[] =>
  FIELDS.filter((field) => needs.some((need) => field === need || field.startsWith(`${need}.`)));

/** On what rules rest at their weakest, for what the record holds. */
function weakestOf(voice: Voice, standings: Readonly<Record<string, Standing>>): string {
  const byBasis = new Map<Basis, string[]>();
  for (const { id, needs } of rules.map(describeRule)) {
    const bases = fieldsFor(needs).flatMap((field) => {
      const standing = standings[field];
      return standing === undefined || standing === 'none' || standing === 'absent' ? [] : [standing];
    });
    if (bases.length === 0) continue;
    const basis = weakest(...bases);
    byBasis.set(basis, [...(byBasis.get(basis) ?? []), id]);
  }
  const parts = BASES.flatMap((basis) => {
    const ids = byBasis.get(basis);
    return ids === undefined ? [] : [`on ${topicsOf(voice, ids)}, something that is ${IN_WORDS[basis]}`];
  });
  return parts.length === 0 ? '' : `Behind what the rules say stands, at its weakest: ${parts.join('; ')}.`;
}

function whatRulesTell(voice: Voice, standings: Readonly<Record<string, Standing>>, worth: WorthFinding): Section[] {
  const doubted = new Set(worth.worth.flatMap((one) => one.rules.map(({ rule }) => rule)));
  const sure = rules.filter(({ id }) => !doubted.has(id)).map(({ id }) => id);
  const lines = worthLines(voice, worth);
  return [
    [
      heading('What the rules can and cannot tell'),
      paragraph(
        [
          sure.length === 0
            ? 'Every rule comes to a doubt that hangs on this record.'
            : `The rules on ${topicsOf(voice, sure)} come to no doubt that hangs on a gap or a band of this record.`,
          weakestOf(voice, standings),
        ]
          .filter((text) => text !== '')
          .join(' '),
      ),
    ],
    lines.length === 0
      ? [paragraph('Nothing that can be told of it would come out otherwise within the bands of its figures.')]
      : [paragraph('What would tell more, by how much hangs on it:'), ...lines.map((text) => item(text))],
    [paragraph(worthNote(worth))],
  ];
}

/** Fields that a rule needs and that the record says nothing of. */
function silentOn(voice: Voice, standings: Readonly<Record<string, Standing>>): string {
  const needed = fieldsFor(rules.flatMap(({ needs }) => needs));
  const silent = needed.filter((field) => standings[field] === 'absent').map((field) => fieldLabel(voice.catalogue, field));
  return silent.length === 0 ? '' : `Of what rules read, it says nothing of ${inRow(silent)}. That may be unknown, or not apply to it.`;
}

/** Status and names change: where they stand today. */
function whereToLookUp({ taxon, conservation }: SpeciesRecord): Section {
  const { redList, cites, worms } = lookUpPages(taxon);
  return [
    heading('To look up'),
    item(`status in the Red List: ${conservation?.iucn?.url ?? redList}`),
    item(`listings under CITES: ${cites}`),
    item(worms === undefined ? 'the accepted name: https://www.marinespecies.org' : `the accepted name: ${worms}`),
  ];
}

const section = (name: string, ...texts: readonly string[]): Section => {
  const said = texts.filter((text) => text !== '');
  return said.length === 0 ? [] : [heading(name), ...said.map((text) => paragraph(text))];
};

/**
 * One record in prose: what is known of the species, how well, where from, and what the rules can and cannot tell because of it, with
 * the usual cautions and the sources at the end. In English alone: it is for those who write records.
 */
export function explain(record: SpeciesRecord, library: Library, bibliography: readonly CslItem[]): Explained {
  const voice = voiceFor(record, library);
  const references: References = referencesIn(bibliography);
  const { genus, family } = record.taxon;
  const has = (rank: 'genus' | 'family', name: string): boolean => standIn(library.standIns, rank, name, 'growthRate') !== undefined;
  const growthFrom = has('genus', genus) ? 'genus' : has('family', family) ? 'family' : undefined;
  const teller = { voice, references, record, growthFrom } as const;
  const standings = Object.fromEntries(FIELDS.map((field) => [field, standingOf(record, field)]));
  const worth = worthFinding(record, library, lookAt(record, library));
  const body: Section[] = [
    [title(`${record.taxon.scientificName}: what is known of it, and how well`)],
    [paragraph(told.identity(teller))],
    section('Size and growth', told.sizeAndGrowth(teller)),
    section('Body and mouth', told.bodyAndMouth(teller)),
    section('Food', told.food(teller)),
    section('Conduct', told.conduct(teller)),
    section('Needs', told.needs(teller)),
    section('Life and law', told.lifeAndLaw(teller)),
    section('How well it is known', howWell(standings), silentOn(voice, standings)),
    ...whatRulesTell(voice, standings, worth),
    section('Cautions', told.hazards(teller), ...cautionsOf([record]).map((caution) => sayCaution(voice, caution))),
    whereToLookUp(record),
  ];
  const used = references.list();
  return {
    id: record.id,
    standings,
    worth,
    sections: [
      ...body,
      ...(used.length === 0 ? [] : [[heading(say(voice.catalogue, 'depth.references')), ...used.map((text) => item(text))]]),
    ],
  };
}

/** As plain text. */
export const explainText = ({ sections }: Explained): string => textPage(sections);

/** As Markdown. */
export const explainMarkdown = ({ sections }: Explained): string => markdownPage(sections);

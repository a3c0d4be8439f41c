import type { Candidates, CandidateSpecies, Finding, Situation } from '@commensal/schema';
import { item, line, markdownPage, name, paragraph, type Section, textPage, title, under } from './blocks.js';
import { say } from './catalogue.js';
import { groundsOf, type TextOptions } from './depth.js';
import { cautionsSections } from './findings-text.js';
import { sayFinding } from './sentences.js';
import { sayQuestion } from './question.js';
import { sayDate, sayQuantity, type Voice } from './voice.js';

/** Who may join a tank, as plain text: for a keeper, unless the options ask for more. */
export const candidatesText = (voice: Voice, situation: Situation, candidates: Candidates, options: TextOptions = {}): string =>
  textPage(candidatesSections(voice, situation, candidates, options));

/** The same as Markdown. */
export const candidatesMarkdown = (voice: Voice, situation: Situation, candidates: Candidates, options: TextOptions = {}): string =>
  markdownPage(candidatesSections(voice, situation, candidates, options));

function candidatesSections(
  voice: Voice,
  situation: Situation,
  { date, candidates, cautions }: Candidates,
  options: TextOptions,
): Section[] {
  const { depth = 'keeper' } = options;
  const rules = groundsOf(options)?.rules ?? [];
  const tell = (key: string, slots = {}): string => say(voice.catalogue, key, slots);
  const joins = candidates.filter(({ mayJoin }) => mayJoin);
  const against = candidates.filter(({ mayJoin }) => !mayJoin);
  const heading = tell('candidates.heading', { date: sayDate(voice, date), joins: joins.length, asked: candidates.length });
  return [
    [...(situation.title === undefined ? [] : [title(situation.title)]), paragraph(heading)],
    [paragraph(tell('candidates.how'))],
    ...under(tell('candidates.join'), [
      joins.length === 0 ? [paragraph(tell('candidates.nobody'), 2)] : joins.map((one) => line(sayCandidate(voice, one))),
    ]),
    ...under(
      tell('candidates.against'),
      byRule(against).map(([rule, kinds]) => [
        name(sayQuestion(voice.catalogue, rules.find(({ id }) => id === rule) ?? { id: rule, question: rule })),
        ...kinds.map(({ species, finding }) =>
          // A keeper wants to know who; who advises, why as well.
          depth === 'keeper' ? item(voice.names.speciesName(species)) : item(sayFinding(voice, finding)),
        ),
      ]),
    ),
    ...cautionsSections(voice, cautions),
  ];
}

/** How many, of what, how long, and how much about it is in doubt. */
function sayCandidate(voice: Voice, { species, count, length, doubts }: CandidateSpecies): string {
  const of = say(voice.catalogue, 'plan.line', {
    count,
    name: voice.names.speciesName(species),
    ...(length === undefined ? {} : { length: sayQuantity(voice, length.value, length.unit) }),
    each: count > 1 ? say(voice.catalogue, 'plan.each') : '',
  });
  return say(voice.catalogue, 'candidates.doubts', { line: of, doubts });
}

interface Against {
  readonly species: string;
  readonly finding: Finding;
}

/** Species by the rule that speaks against them most gravely, the rule that keeps out most first. */
function byRule(candidates: readonly CandidateSpecies[]): [rule: string, kinds: Against[]][] {
  const groups = new Map<string, Against[]>();
  for (const { species, because } of candidates) {
    const [finding] = because;
    if (finding === undefined) continue;
    groups.set(finding.rule, [...(groups.get(finding.rule) ?? []), { species, finding }]);
  }
  return [...groups].sort(([one, of], [other, others]) => others.length - of.length || (one < other ? -1 : 1));
}

import type { Alternative, Chosen, IfChanged, Plan } from '@commensal/schema';
import { item, type Section } from './blocks.js';
import { say } from './catalogue.js';
import { sayChange } from './sentences.js';
import { capital, sayList, saySentence, saySpecies, type Voice } from './voice.js';

/** Other sets that work, and what single changes of the tank would buy. */
export const otherwiseSection = (voice: Voice, { chosen, alternatives, ifChanged }: Plan): Section =>
  [
    ...alternatives.map((alternative) => sayAlternative(voice, chosen, alternative)),
    ...ifChanged.filter(({ gains }) => gains.length > 0).map((change) => sayIfChanged(voice, chosen, change)),
  ].map((sentence) => item(sentence, 2));

const provenKey = (proven: boolean): string => (proven ? 'proven' : 'open');

function sayAlternative(voice: Voice, chosen: readonly Chosen[], { chosen: others, gains, losses, proven }: Alternative): string {
  return saySentence(voice, 'plan.alternative', {
    gains: sayMore(voice, gains, others, chosen),
    ...(losses.length === 0 ? {} : { losses: sayMore(voice, losses, chosen, others) }),
    provenKey: provenKey(proven),
  });
}

/** How many more of each species one set has than another: "the lamp fish and 4 × Moll's perch". */
function sayMore(voice: Voice, species: readonly string[], of: readonly Chosen[], than: readonly Chosen[]): string {
  const countIn = (set: readonly Chosen[], id: string): number =>
    set.reduce((sum, { species: one, count }) => sum + (one === id ? count : 0), 0);
  return sayList(
    voice,
    species.map((id) => {
      const more = countIn(of, id) - countIn(than, id);
      if (more < 2 && countIn(than, id) === 0) return saySpecies(voice, id);
      return say(voice.catalogue, 'plan.animals', { count: Math.max(1, more), name: voice.names.speciesName(id) });
    }),
  );
}

function sayIfChanged(voice: Voice, chosen: readonly Chosen[], { change, gains, losses, proven }: IfChanged): string {
  const isIn = (id: string): boolean => chosen.some(({ species }) => species === id);
  const names = (list: readonly string[], say: (id: string) => string): string => sayList(voice, list.map(say));
  return saySentence(voice, 'plan.ifChanged', {
    change: capital(sayChange(voice, change)),
    gains: names(gains, (id) => (isIn(id) ? say(voice.catalogue, 'plan.more', { name: saySpecies(voice, id) }) : saySpecies(voice, id))),
    ...(losses.length === 0 ? {} : { losses: names(losses, (id) => saySpecies(voice, id)) }),
    provenKey: provenKey(proven),
  });
}

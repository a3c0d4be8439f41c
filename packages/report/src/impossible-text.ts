import type { Impossible, LeftOut } from '@commensal/schema';
import { paragraph, type Section, under } from './blocks.js';
import { say } from './catalogue.js';
import type { Deeper } from './deeper.js';
import { groupBlocks } from './findings-text.js';
import { grouped } from './groups.js';
import { saySentence, sayList, saySpecies, type Voice } from './voice.js';

/** What has to be in and cannot be, and what stands in the way; of a single wish that is told where it is left out. */
export function impossibleSections(
  voice: Voice,
  { species, because, minimal }: Impossible,
  leftOut: readonly LeftOut[],
  deeper: Deeper,
): Section[] {
  const list = sayList(
    voice,
    species.map((one) => saySpecies(voice, one)),
  );
  const told = saySentence(voice, 'plan.together', { list, count: species.length, minimalKey: minimal ? 'minimal' : 'open' });
  const isToldBelow = species.length === 1 && leftOut.some((wish) => wish.species === species[0]);
  const findings = grouped(voice, isToldBelow ? [] : because).flatMap((group) => groupBlocks(voice, group, deeper));
  return under(say(voice.catalogue, 'plan.impossible'), [[paragraph(told, 2), ...findings]]);
}

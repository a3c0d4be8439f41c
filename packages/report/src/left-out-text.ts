import type { Change, LeftOut } from '@commensal/schema';
import { type Block, item, name, paragraph, type Section } from './blocks.js';
import { say } from './catalogue.js';
import type { Deeper } from './deeper.js';
import { groupBlocks } from './findings-text.js';
import { grouped } from './groups.js';
import { sayChange, sayConflict } from './sentences.js';
import { capital, type Voice } from './voice.js';

/** A wish that was left out: what stands in its way, and what would let it in. */
export function leftOutSection(voice: Voice, wish: LeftOut, deeper: Deeper): Section {
  const { species, count, because } = wish;
  const conflict = isTold(voice, wish) ? undefined : sayConflict(voice, wish.conflict);
  return [
    name(capital(say(voice.catalogue, 'plan.leftOutName', { name: voice.names.speciesName(species), count }))),
    ...grouped(voice, because).flatMap((group) => groupBlocks(voice, group, deeper)),
    ...(conflict === undefined ? [] : [paragraph(conflict, 4)]),
    ...needs(voice, wish),
  ];
}

/** Whether the findings say already what a wish cannot be together with: that any of several would do is more than they say. */
function isTold({ names }: Voice, { because, conflict: { species, minimal } }: LeftOut): boolean {
  if (!minimal || species.length === 0) return true;
  const told = new Set(because.flatMap(({ subjects }) => subjects.map(({ id }) => names.speciesOf(id))));
  return species.length === 1 && species.every((one) => told.has(one));
}

function needs(voice: Voice, { wouldNeed, wouldNeedTogether }: LeftOut): Block[] {
  const { catalogue } = voice;
  const list = (changes: readonly Change[]): Block[] => changes.map((change) => item(sayChange(voice, change), 6));
  if (wouldNeed.length > 0) return [paragraph(say(catalogue, 'plan.wouldLetIn', { changes: wouldNeed.length }), 4), ...list(wouldNeed)];
  if (wouldNeedTogether.length > 0) return [paragraph(say(catalogue, 'plan.togetherLetIn'), 4), ...list(wouldNeedTogether)];
  return [paragraph(say(catalogue, 'plan.noSingleChange'), 4)];
}

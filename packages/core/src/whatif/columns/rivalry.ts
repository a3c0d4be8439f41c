import type { HarmOptions } from '../../rules/attack.js';
import { bestOddsIn, leastLogRatioIn, logRatioIn, mostLogRatioIn, standingBetween } from './contests.js';
import { CLOSE, type Kernel, LEFT } from './kernel.js';
import type { Shared } from './kernels.js';
import { need, needEnds } from './places.js';
import { attack, goTo, rockAtLeast, spareAtWorstIn, spareIn } from './refuges.js';
import { type Ends, type Look, type Pair, rankAt, type Refuge, rivalryLayout, type RivalryLayout } from './rivalry-layout.js';

/** The rule `rivalry` in columns: which two may harm each other at all, and how gravely, is laid out once. */
export function rivalryOn(shared: Shared, options: HarmOptions): Kernel | undefined {
  const layout = rivalryLayout(shared, options);
  return layout === undefined ? undefined : () => worstOf(layout);
}

function worstOf(layout: RivalryLayout): number {
  const { pairs, ceilings, odds, rockFor, fromRatio, refuges } = layout;
  const { places } = refuges;
  const rockL = rockAtLeast(refuges);
  const { scenario } = places.columns;
  let rank = layout.least;
  for (let index = 0; index < pairs.length && (ceilings[index] as number) > rank; index += 1) {
    const { looks, first } = pairs[index] as Pair;
    let weight = -1;
    for (let at = 0; at < looks.length; at += 1) {
      if (rockL > (rockFor[first + at] as number)) continue;
      if (places.endsIn !== scenario) needEnds(places);
      if (bestOddsIn(places, odds, first + at) < fromRatio - CLOSE) continue;
      const look = looks[at] as Look;
      let end = look.isAtEnd ? UNSURE : endByBounds(layout, look, weight);
      if (end === UNSURE) {
        if (!look.isAtEnd) need(places, look.needed);
        end = endIn(layout, look, weight);
      }
      if (end === UNSURE) return LEFT;
      if (end > weight) weight = end;
    }
    const reached = rankAt(weight);
    if (reached > rank) rank = reached;
  }
  return rank;
}

const UNSURE = -2;

/** How an attack ends, as a weight; UNSURE where it is close. */
function endIn(layout: RivalryLayout, look: Look, above: number): number {
  const logRatio = logRatioIn(layout.contests, look.meeting);
  layout.ratios[0] = logRatio - CLOSE;
  layout.ratios[1] = logRatio + CLOSE;
  return endBetween(layout, look, above, look.refuge, look.refuge);
}

/** The same by what two can be on the day; UNSURE where that does not tell. */
function endByBounds(layout: RivalryLayout, look: Look, above: number): number {
  const { contests, ratios } = layout;
  const { meeting } = look;
  if (!meeting.isMeasured) return UNSURE;
  ratios[0] = leastLogRatioIn(contests, meeting) - CLOSE;
  ratios[1] = mostLogRatioIn(contests, meeting) + CLOSE;
  return endBetween(layout, look, above, look.refugeAtStart, look.refugeAtEnd);
}

/**
 * How an attack ends, as a weight, where the logarithm of the ratio of strengths lies between the two that are noted, and the refuge between two; -1 not at all, or in no
 * more than a weight; UNSURE where that does not tell. Judged at the centre, then at the point less favourable to the target.
 */
function endBetween(layout: RivalryLayout, look: Look, above: number, wider: Refuge, narrower: Refuge): number {
  const { contests, refuges, fromRatio, toRatio, ratios } = layout;
  const least = ratios[0] as number;
  const most = ratios[1] as number;
  const at = standingBetween(contests, look.meeting, least, most);
  if (at === LEFT) return UNSURE;
  const ends = look.ends[at] as Ends;
  if (ends.most <= above) return -1;
  const { shift, shiftAtMost } = ends;
  if (most + shiftAtMost < fromRatio) return -1;
  if (least + shiftAtMost < fromRatio) return UNSURE;
  // Odds that are not known are no number, and compare as neither.
  const isCertain = ends.harmed >= 0 && least + shift > fromRatio;
  if (!isCertain && ends.harmed >= 0 && most + shift > fromRatio) return UNSURE;
  if (isCertain && ends.stands) {
    if (most + shift < toRatio) return ends.harmed;
    if (least + shift < toRatio) return UNSURE;
  }
  if (isCertain && look.lacksShelter) return ends.harmed;
  let spareAtLeast = Number.POSITIVE_INFINITY;
  let worstAtLeast = Number.POSITIVE_INFINITY;
  let spareAtMost = Number.POSITIVE_INFINITY;
  let worstAtMost = Number.POSITIVE_INFINITY;
  if (!(rockAtLeast(refuges) > look.roomFrom)) {
    const { reach } = ends;
    goTo(refuges, narrower.ground);
    attack(refuges, narrower.attacker, reach);
    // Whether a mere chase finds a refuge is not worth a doubt about litres.
    const isSimple = ends.isChase && refuges.isKnown;
    spareAtLeast = spareIn(refuges);
    worstAtLeast = isSimple ? spareAtLeast : spareAtWorstIn(refuges);
    spareAtMost = spareAtLeast;
    worstAtMost = worstAtLeast;
    if (wider !== narrower && !(worstAtLeast > CLOSE)) {
      goTo(refuges, wider.ground);
      attack(refuges, wider.attacker, reach);
      spareAtMost = spareIn(refuges);
      worstAtMost = isSimple ? spareAtMost : spareAtWorstIn(refuges);
    }
  }
  if (isCertain) {
    if (spareAtMost < -CLOSE) return ends.harmed;
    if (spareAtLeast < CLOSE) return UNSURE;
    if (ends.hunted >= 0) return ends.hunted;
  }
  if (ends.mayHarm <= above) return -1;
  if (ends.mayStand) {
    if (most + ends.shiftAtLeast < toRatio) return ends.mayHarm;
    if (least + ends.shiftAtLeast < toRatio) return UNSURE;
  }
  if (look.lacksShelter || look.mayLackShelter || worstAtMost < -CLOSE) return ends.mayHarm;
  return worstAtLeast > CLOSE ? ends.mayHunt : UNSURE;
}

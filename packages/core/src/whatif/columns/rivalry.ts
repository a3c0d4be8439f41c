import type { HarmOptions } from '../../rules/attack.js';
import { noteBounds, noteRatio, oddsIn, standingBetween } from './contests.js';
import { CLOSE, type Kernel, LEFT } from './kernel.js';
import type { Shared } from './kernels.js';
import { need, needEnds } from './places.js';
import { attack, goTo, isRoomy, NO_ROOM, rockAtLeast, ROOM, roomAtWorstIn, roomIn } from './refuges.js';
import { type Ends, type Look, rankAt, rivalryLayout, type RivalryLayout, weightWithin } from './rivalry-layout.js';

/** The rule `rivalry` in columns: which two may harm each other at all, and how gravely, is laid out once. */
export function rivalryOn(shared: Shared, options: HarmOptions): Kernel | undefined {
  const layout = rivalryLayout(shared, options);
  return layout === undefined ? undefined : () => worstOf(layout);
}

function worstOf(layout: RivalryLayout): number {
  const { looks, firstOf, ceilings, odds, worstOdds, rooms, rockFor, mosts, fromRatio, toRatio, refuges } = layout;
  const { places } = refuges;
  const rockL = rockAtLeast(refuges);
  const { scenario } = places.columns;
  let rank = layout.least;
  let within = weightWithin(rank);
  for (let pair = 0; pair < ceilings.length && (ceilings[pair] as number) > rank; pair += 1) {
    // What comes to no more than is known already is not looked at.
    let weight = within;
    const end = firstOf[pair + 1] as number;
    for (let at = firstOf[pair] as number; at < end; at += 1) {
      if ((mosts[at] as number) <= weight || rockL > (rockFor[at] as number)) continue;
      if (places.endsIn !== scenario) needEnds(places);
      if (oddsIn(places, odds, at) < fromRatio - CLOSE) continue;
      if (oddsIn(places, worstOdds, at) > toRatio + CLOSE && isRoomy(refuges, rooms, at)) continue;
      const look = looks[at] as Look;
      let found = look.isAtEnd ? UNSURE : endByBounds(layout, look, weight);
      if (found === UNSURE) {
        if (!look.isAtEnd) need(places, look.needed);
        found = endIn(layout, look, weight);
      }
      if (found === UNSURE) return LEFT;
      if (found > weight) weight = found;
    }
    const reached = rankAt(weight);
    if (reached <= rank) continue;
    rank = reached;
    within = weightWithin(rank);
  }
  return rank;
}

const UNSURE = -2;

/** How an attack ends, as a weight; UNSURE where it is close. */
function endIn(layout: RivalryLayout, look: Look, above: number): number {
  noteRatio(layout.contests, look.meeting);
  return endBetween(layout, look, above, true);
}

/** The same by what two can be on the day; UNSURE where that does not tell. */
function endByBounds(layout: RivalryLayout, look: Look, above: number): number {
  if (!look.meeting.isMeasured) return UNSURE;
  noteBounds(layout.contests, look.meeting);
  return endBetween(layout, look, above, false);
}

/**
 * How an attack ends, as a weight, where the logarithm of the ratio of strengths lies between the two that are noted; the refuge is that of the day, or that of the horizon,
 * when all claim most. -1 not at all, or in no more than a weight; UNSURE where that does not tell. Judged at the centre, then at the point less favourable to the target.
 */
function endBetween(layout: RivalryLayout, look: Look, above: number, isOnDay: boolean): number {
  const { contests, refuges, fromRatio, toRatio } = layout;
  const least = contests.ratios[0] as number;
  const most = contests.ratios[1] as number;
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
  let room = ROOM;
  let atWorst = ROOM;
  if (!(rockAtLeast(refuges) > look.roomFrom)) {
    const { ground, attacker } = isOnDay ? look.refuge : look.refugeAtEnd;
    goTo(refuges, ground);
    attack(refuges, attacker, ends.reach);
    room = roomIn(refuges);
    // Whether a mere chase finds a refuge is not worth a doubt about litres.
    atWorst = ends.isChase && refuges.isKnown ? room : roomAtWorstIn(refuges);
  }
  if (isCertain) {
    if (room === NO_ROOM && isOnDay) return ends.harmed;
    if (room !== ROOM) return UNSURE;
    if (ends.hunted >= 0) return ends.hunted;
  }
  if (ends.mayHarm <= above) return -1;
  if (ends.mayStand) {
    if (most + ends.shiftAtLeast < toRatio) return ends.mayHarm;
    if (least + ends.shiftAtLeast < toRatio) return UNSURE;
  }
  if (look.lacksShelter || look.mayLackShelter || (atWorst === NO_ROOM && isOnDay)) return ends.mayHarm;
  return atWorst === ROOM ? ends.mayHunt : UNSURE;
}

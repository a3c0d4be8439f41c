import { addBit, countBits, dropBit, hasBit, lowestBit } from './bits.js';
import { type Found, keyOf, putIn, type Shortlist } from './found.js';
import { keepsLimits, worthOf } from './holds.js';
import type { Model } from './model.js';
import type { Nogoods } from './nogoods.js';

/** What one pass looks for. */
export interface Pass {
  /** So many sets at most, the best. */
  readonly most: number;
  /** Only sets worth more than this, or as much where `orEqual`. */
  readonly floor: number;
  readonly orEqual: boolean;
  /** A set that is known to hold, to begin with. */
  readonly start: readonly number[] | undefined;
  /** Sets that are left out, by key. */
  readonly said: ReadonlySet<string>;
  readonly mostSteps: number;
  readonly isOver: () => boolean;
}

/** What one pass found. */
export interface Passed {
  /** Best first. Where there are fewer than asked for and the pass came to its end, there are no others. */
  readonly found: readonly Found[];
  readonly steps: number;
  /** No set that was not looked at is worth more; minus infinity where all were. */
  readonly open: number;
}

/**
 * The best sets, by branch and bound. Each node of the tree is one set of chosen options and the candidates that may still join it; its
 * children add one candidate each, and leave out those tried before, so that every set is one node.
 *
 * Candidates are parted into cliques of the conflict graph, of which a set takes one option each: the sum of what is most in each bounds what
 * they bring (the colour bound of maximum clique search, after Tomita and Seki 2003 and San Segundo, Rodriguez-Losada and Jimenez 2011, from
 * memory), once by value, and once by value less price with what the limits cost at their fullest. A candidate with which that
 * falls below what is looked for is dropped. Of the rest only those are tried first that a closer bound cannot pay for (see `cover`).
 */
export function pass(model: Model, nogoods: Nogoods, { most, floor, orEqual, start, said, mostSteps, isOver }: Pass): Passed {
  const { problem, count, words, optionAt, value, price, rest, clash, limits, uses, wakes, musts, mustCount, grain, slack } = model;
  const list: Shortlist = { found: [], most };
  const depths = model.depth + 2;
  const limitCount = limits.length;
  const candidates = new Int32Array(depths * words);
  const chosen = new Int32Array(words);
  const path = new Int32Array(depths);
  const used = new Float64Array(depths * limitCount);
  const order = new Int32Array(depths * count);
  const wholeAt = new Float64Array(depths);
  const tops = new Float64Array(count);
  const valueTops = new Float64Array(count);
  const ends = new Int32Array(count);
  const listing = new Int32Array(count);
  const common = new Int32Array(count * words);
  const partTops = new Float64Array(count);
  const joins = new Int32Array(count);
  const open = new Int32Array(words);
  const mates = new Int32Array(words);
  const missing = Int32Array.from(nogoods.members, (members) => members.length);
  let steps = 0;
  let isStopped = false;
  let unseen = Number.NEGATIVE_INFINITY;
  let need = 0;

  /** Bounds below this end a branch. */
  const raise = (): void => {
    const last = list.found.length >= most ? list.found[list.found.length - 1] : undefined;
    if (last !== undefined) need = grain > 0 ? last.value + grain : last.value - slack;
    else need = grain > 0 && !orEqual ? floor + grain : floor - slack;
  };

  /** Puts the set of a node on the list where it belongs there. */
  const offer = (depth: number): void => {
    const options = Array.from(path.subarray(0, depth), (place) => optionAt[place] ?? 0).sort((one, other) => one - other);
    const worth = worthOf(problem, options);
    if (!(worth > floor || (orEqual && worth === floor))) return;
    const last = list.found.length >= most ? list.found[list.found.length - 1] : undefined;
    if (last !== undefined && worth <= last.value) return;
    if (said.has(keyOf(options)) || !keepsLimits(problem, options)) return;
    putIn(list, { options, value: worth });
    raise();
  };

  /** Drops the candidates of a depth for which a limit has no room left; false where what is chosen has none itself. */
  const dropByLimit = (depth: number, number: number): boolean => {
    const limit = limits[number];
    if (limit === undefined) return true;
    const room = limit.most - (used[depth * limitCount + number] ?? 0);
    const at = depth * words;
    if (limit.only >= 0 && !hasBit(chosen, 0, limit.only)) {
      if (room < (limit.uses[limit.only] ?? 0)) dropBit(candidates, at, limit.only);
      return true;
    }
    if (room < 0) return false;
    const { byUse } = limit;
    for (let next = 0; next < byUse.length; next += 1) {
      const place = byUse[next] ?? 0;
      if ((limit.uses[place] ?? 0) <= room) break;
      dropBit(candidates, at, place);
    }
    return true;
  };

  /** Lays out the candidates that a newly chosen place leaves; false where it cannot be chosen. */
  const choose = (depth: number, place: number): boolean => {
    const from = depth * words;
    const to = from + words;
    for (let word = 0; word < words; word += 1)
      candidates[to + word] = (candidates[from + word] ?? 0) & ~(clash[place * words + word] ?? 0);
    dropBit(candidates, to, place);
    addBit(chosen, 0, place);
    path[depth] = place;
    const was = depth * limitCount;
    for (let number = 0; number < limitCount; number += 1) used[was + limitCount + number] = used[was + number] ?? 0;
    let fits = true;
    const touched = uses[place] ?? [];
    for (let at = 0; at < touched.length; at += 1) {
      const number = touched[at] ?? 0;
      const slot = was + limitCount + number;
      used[slot] = (used[slot] ?? 0) + (limits[number]?.uses[place] ?? 0);
      fits = dropByLimit(depth + 1, number) && fits;
    }
    const woken = wakes[place] ?? [];
    for (let at = 0; at < woken.length; at += 1) fits = dropByLimit(depth + 1, woken[at] ?? 0) && fits;
    const touchedNogoods = nogoods.of[place] ?? [];
    for (let at = 0; at < touchedNogoods.length; at += 1) {
      const number = touchedNogoods[at] ?? 0;
      missing[number] = (missing[number] ?? 0) - 1;
      if (missing[number] === 1) dropLastOf(to, number);
      else if (missing[number] === 0) fits = false;
    }
    return fits;
  };

  const dropLastOf = (at: number, number: number): void => {
    const places = nogoods.places[number] ?? [];
    for (let next = 0; next < places.length; next += 1)
      if (!hasBit(chosen, 0, places[next] ?? 0)) dropBit(candidates, at, places[next] ?? 0);
  };

  const takeBack = (place: number): void => {
    dropBit(chosen, 0, place);
    const touched = nogoods.of[place] ?? [];
    for (let at = 0; at < touched.length; at += 1) missing[touched[at] ?? 0] = (missing[touched[at] ?? 0] ?? 0) + 1;
  };

  /** The row without a chosen option that has the fewest candidates; -1 where there is none, -2 where one has no candidate. */
  const barestMust = (depth: number): number => {
    let barest = -1;
    let fewest = Number.POSITIVE_INFINITY;
    for (let row = 0; row < mustCount; row += 1) {
      let isMet = false;
      let left = 0;
      for (let word = 0; word < words && !isMet; word += 1) {
        const bits = musts[row * words + word] ?? 0;
        isMet = (bits & (chosen[word] ?? 0)) !== 0;
        left += countBits(bits & (candidates[depth * words + word] ?? 0));
      }
      if (isMet) continue;
      if (left === 0) return -2;
      if (left < fewest) {
        fewest = left;
        barest = row;
      }
    }
    return barest;
  };

  /**
   * Parts the candidates of a depth into cliques, drops those with which nothing that is looked for can be reached, and lists those that have to be
   * tried: sets of the others alone are worth too little. Returns how many are listed.
   *
   * What the others may be worth is found one by one: each shares its weight out among the cliques so far of which it clashes with every
   * member, each of which takes up to what it counts already; only what then remains counts anew (weights are split as in Fang, Li and Xu 2016,
   * from memory).
   */
  const cover = (depth: number, worth: number, room: number): number => {
    const at = depth * words;
    const first = depth * count;
    let listed = 0;
    let cliques = 0;
    let valueSum = 0;
    let restSum = 0;
    for (let word = 0; word < words; word += 1) open[word] = candidates[at + word] ?? 0;
    for (let from = 0; from < words; from += 1) {
      while ((open[from] ?? 0) !== 0) {
        for (let word = from; word < words; word += 1) mates[word] = open[word] ?? 0;
        const top = (from << 5) + lowestBit(open[from] ?? 0);
        let valueTop = 0;
        for (let word = from; word < words; word += 1) {
          for (let bits = mates[word] ?? 0; bits !== 0; bits = mates[word] ?? 0) {
            const place = (word << 5) + lowestBit(bits);
            open[word] = (open[word] ?? 0) & ~(bits & -bits);
            mates[word] = bits & ~(bits & -bits);
            for (let next = word; next < words; next += 1) mates[next] = (mates[next] ?? 0) & (clash[place * words + next] ?? 0);
            listing[listed] = place;
            listed += 1;
            const each = value[place] ?? 0;
            if (each > valueTop) valueTop = each;
          }
        }
        const restTop = Math.max(0, rest[top] ?? 0);
        tops[cliques] = restTop;
        valueTops[cliques] = valueTop;
        ends[cliques] = listed;
        cliques += 1;
        valueSum += valueTop;
        restSum += restTop;
      }
    }
    const whole = worth + Math.min(valueSum, room + restSum);
    wholeAt[depth] = whole;
    if (whole < need) return 0;
    const isPriced = room + restSum < valueSum;
    const weights = isPriced ? rest : value;
    // What the places that need not be tried may bring besides what is chosen.
    const allowed = need - worth - (isPriced ? room : 0);
    let parts = 0;
    let paid = 0;
    let tried = 0;
    for (let clique = cliques - 1; clique >= 0; clique -= 1) {
      const others = worth + valueSum - (valueTops[clique] ?? 0);
      const othersRest = worth + room + restSum - (tops[clique] ?? 0);
      const from = clique === 0 ? 0 : (ends[clique - 1] ?? 0);
      for (let next = (ends[clique] ?? 0) - 1; next >= from; next -= 1) {
        const place = listing[next] ?? 0;
        if (others + (value[place] ?? 0) < need || othersRest + (rest[place] ?? 0) < need) {
          dropBit(candidates, at, place);
          continue;
        }
        let remainder = weights[place] ?? 0;
        let joined = 0;
        const word = place >>> 5;
        for (let part = parts - 1; part >= 0 && remainder > 0; part -= 1) {
          if ((((common[part * words + word] ?? 0) >>> (place & 31)) & 1) === 0) continue;
          remainder -= partTops[part] ?? 0;
          joins[joined] = part;
          joined += 1;
        }
        if (paid + Math.max(0, remainder) >= allowed) {
          order[first + tried] = place;
          tried += 1;
          continue;
        }
        const row = place * words;
        for (let join = 0; join < joined; join += 1) {
          const part = (joins[join] ?? 0) * words;
          for (let each = 0; each < words; each += 1) common[part + each] = (common[part + each] ?? 0) & (clash[row + each] ?? 0);
        }
        if (remainder > 0) {
          for (let each = 0; each < words; each += 1) common[parts * words + each] = clash[row + each] ?? 0;
          partTops[parts] = remainder;
          paid += remainder;
          parts += 1;
        }
      }
    }
    return tried;
  };

  const descend = (depth: number, worth: number, room: number, bound: number): void => {
    if (isStopped || steps >= mostSteps || isOver()) {
      isStopped = true;
      if (bound > unseen) unseen = bound;
      return;
    }
    steps += 1;
    const must = mustCount === 0 ? -1 : barestMust(depth);
    if (must === -2) return;
    const tried = cover(depth, worth, room);
    const whole = Math.min(bound, wholeAt[depth] ?? 0);
    if (must >= 0) {
      // One of the row has to come in.
      if (tried > 0) {
        for (let word = 0; word < words; word += 1) {
          const at = depth * words + word;
          for (let bits = (candidates[at] ?? 0) & (musts[must * words + word] ?? 0); bits !== 0; bits &= bits - 1) {
            if (whole < need) return;
            branch(depth, (word << 5) + lowestBit(bits), worth, room, whole);
          }
        }
      }
      return;
    }
    const first = depth * count;
    for (let next = tried - 1; next >= 0 && whole >= need; next -= 1) branch(depth, order[first + next] ?? 0, worth, room, whole);
    if (worth >= need) {
      if (isStopped) unseen = Math.max(unseen, worth);
      else offer(depth);
    }
  };

  const branch = (depth: number, place: number, worth: number, room: number, bound: number): void => {
    if (isStopped) {
      if (bound > unseen) unseen = bound;
      return;
    }
    const fits = choose(depth, place);
    if (fits) descend(depth + 1, worth + (value[place] ?? 0), room - (price[place] ?? 0), bound);
    takeBack(place);
    dropBit(candidates, depth * words, place);
  };

  if (nogoods.none) return { found: [], steps, open: unseen };
  if (start !== undefined && !said.has(keyOf(start))) {
    const worth = worthOf(problem, start);
    if (worth > floor && most === 1) putIn(list, { options: start, value: worth });
  }
  for (let place = 0; place < count; place += 1) if (!hasBit(nogoods.banned, 0, place)) addBit(candidates, 0, place);
  raise();
  let fits = true;
  for (let number = 0; number < limitCount; number += 1) fits = dropByLimit(0, number) && fits;
  if (fits) descend(0, 0, model.room, model.total + slack);
  return { found: list.found, steps, open: unseen + slack };
}

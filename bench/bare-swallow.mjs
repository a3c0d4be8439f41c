/**
 * The swallow verdict as a bare loop over columns of numbers: the yardstick that the public rule is held against. It comes to the same
 * outcome, level and day for every ordered pair (`sameVerdicts` of swallow.mjs makes sure of it) by the same arithmetic with the same early
 * exits, but keeps no objects, names nothing, and works out neither safe lengths nor what a doubt hangs on.
 */
const YEAR = 365.25;
const LOOK_DAYS = 64;
const MOUTH = { engulfs: 1, distensible: 1 };
const INTEREST = ['habitual', 'opportunist', 'noneRecorded', 'unknown'];
/** By interest, ordinary then easy: 0 note, 1 warning, 2 error. */
const LEVELS = [2, 2, 1, 2, 0, 1, 2, 2];

export const OUTCOMES = ['passed', 'failed', 'cantTell'];

/** The animals of a stock as columns: one array a figure, one number an animal in each; NaN where it is not known. */
export function columnsOf(stock, options) {
  const { animals } = stock;
  const column = (read) => Float64Array.from(animals, (animal) => read(animal, animal.kind) ?? Number.NaN);
  const up = (band) => Math.log(band.high / band.centre);
  const down = (band) => Math.log(band.centre / band.low);
  const limitOf = ({ gapeClass, swallow }) =>
    gapeClass === 'distensible'
      ? { low: options.distensibleLimit / 1.25, centre: options.distensibleLimit, high: options.distensibleLimit * 1.25 }
      : swallow;
  const stretches = (kind) => kind.gapeClass === 'distensible';
  const depthOf = ({ defendedPerTotal: spines, depthPerTotal: rest }) =>
    spines !== undefined && spines.centre > (rest?.centre ?? 0) ? spines : rest;
  const square = (value) => value * value;
  const interestIn = ({ record: { feeding } }, food) => {
    if (food === undefined) return INTEREST.indexOf(feeding?.fishEating?.value ?? 'unknown');
    if (feeding?.eats === undefined) return 3;
    if (!feeding.eats.foods.includes(food)) return 2;
    return feeding.eats.small?.includes(food) ? 1 : 0;
  };
  const ids = [...new Set(animals.map(({ kind }) => kind.id))];
  return {
    count: animals.length,
    today: stock.day,
    horizon: stock.horizonDay,
    smallShare: options.smallShare,
    lookBeyond: options.lookBeyondYears,
    swallows: column((_, kind) => (kind.gapeClass === 'notGapeLimited' ? 0 : 1)),
    body: column((_, kind) => (kind.form === 'fish' ? 1 : kind.form === 'shrimp' ? 2 : kind.form === 'crab' ? 3 : 0)),
    kind: column((_, kind) => ids.indexOf(kind.id)),
    spared: column((_, kind) => (kind.record.feeding?.cleans?.value === true ? 1 : 0)),
    toFish: column((_, kind) => interestIn(kind)),
    toShrimp: column((_, kind) => interestIn(kind, 'shrimps')),
    toCrab: column((_, kind) => interestIn(kind, 'crabs')),
    arrival: column((animal) => Math.max(stock.day, animal.entryDay ?? stock.day)),
    leave: column((animal) => animal.leaveDay),
    lengthDay: column((animal) => animal.lengthDay),
    start: column((animal) => animal.lengthCm?.centre),
    startLow: column((animal) => animal.lengthCm?.low),
    startHigh: column((animal) => animal.lengthCm?.high),
    end: column((_, kind) => kind.asymptoticCm?.centre),
    endLow: column((_, kind) => kind.asymptoticCm?.low),
    endHigh: column((_, kind) => kind.asymptoticCm?.high),
    rate: column((_, kind) => kind.ratePerYear?.centre),
    rateLow: column((_, kind) => kind.ratePerYear?.low),
    rateHigh: column((_, kind) => kind.ratePerYear?.high),
    full: column((animal, kind) => Math.max(kind.asymptoticCm?.centre ?? 0, kind.adultCm?.centre ?? 0, animal.lengthCm?.centre ?? 0)),
    endUp: column((_, kind) => (kind.asymptoticCm === undefined ? 0 : up(kind.asymptoticCm))),
    endDown: column((_, kind) => (kind.asymptoticCm === undefined ? 0 : down(kind.asymptoticCm))),
    limit: column((_, kind) => (MOUTH[kind.gapeClass] ? limitOf(kind)?.centre / kind.totalPerStandard?.centre : undefined)),
    mouthSquares: column((_, kind) => {
      const limit = limitOf(kind);
      if (limit === undefined || kind.totalPerStandard === undefined) return undefined;
      return square(up(limit)) + (stretches(kind) ? 0 : square(Math.log(options.squeeze))) + square(down(kind.totalPerStandard));
    }),
    cap: column((_, kind) => kind.totalPerStandard?.centre / (stretches(kind) ? options.distensibleLongestShare : options.longestShare)),
    capAtWorst: column(
      (_, kind) => kind.totalPerStandard?.centre / (stretches(kind) ? options.distensibleLongestShareAtMost : options.longestShareAtMost),
    ),
    depth: column((_, kind) => depthOf(kind)?.centre),
    depthError: column((_, kind) => (depthOf(kind) === undefined ? 0 : down(depthOf(kind)))),
  };
}

/** Room for what the loop works out: lengths by animal and day, and the verdicts. */
export const scratchOf = ({ count }) => ({
  /** Eleven figures a slot; a slot an animal and look or day of arrival. */
  lengths: new Float64Array(count * SLOTS * FIGURES),
  slotDays: new Float64Array(count * SLOTS),
  spare: new Float64Array(2 * FIGURES),
  deepest: new Float64Array(count),
  longest: new Float64Array(count),
  shallowest: new Float64Array(count),
  shortest: new Float64Array(count),
  outcome: new Uint8Array(count * count),
  level: new Uint8Array(count * count),
  day: new Float64Array(count * count),
});

const SLOTS = 64;
const FIGURES = 11;
const [LOG, UP, DOWN, START_UP, START_DOWN, END_UP, END_DOWN, FAST, SLOW, LONGEST, SHORTEST] = Array.from(
  { length: FIGURES },
  (_, at) => at,
);

const lengthAt = (start, end, left) => (start >= end ? start : end - (end - start) * left);

/** Writes the length of an animal on a day, with its errors, all logarithms. */
function writeLength(c, i, day, into, at) {
  const years = Math.max(0, (day - c.lengthDay[i]) / YEAR);
  const [start, startLow, startHigh] = [c.start[i], c.startLow[i], c.startHigh[i]];
  const [end, endLow, endHigh] = [c.end[i], c.endLow[i], c.endHigh[i]];
  const left = Math.exp(-c.rate[i] * years);
  const log = Math.log(lengthAt(start, end, left));
  const startUp = startHigh === start ? 0 : Math.abs(Math.log(lengthAt(startHigh, end, left)) - log);
  const startDown = startLow === start ? 0 : Math.abs(Math.log(lengthAt(startLow, end, left)) - log);
  const leftFast = years === 0 ? 1 : Math.exp(-c.rateHigh[i] * years);
  const leftSlow = years === 0 ? 1 : Math.exp(-c.rateLow[i] * years);
  const longest = Math.log(lengthAt(startHigh, endHigh, leftFast));
  const shortest = Math.log(lengthAt(startLow, endLow, leftSlow));
  const endUp = years === 0 ? 0 : Math.log(lengthAt(start, endHigh, left)) - log;
  const endDown = years === 0 ? 0 : Math.log(lengthAt(start, endLow, left)) - log;
  const fast = years === 0 ? log : Math.log(lengthAt(start, end, leftFast));
  const slow = years === 0 ? log : Math.log(lengthAt(start, end, leftSlow));
  into[at + LOG] = log;
  into[at + UP] = years === 0 ? startUp : Math.min(Math.sqrt(startUp ** 2 + endUp ** 2 + (fast - log) ** 2), Math.abs(longest - log));
  into[at + DOWN] =
    years === 0 ? startDown : Math.min(Math.sqrt(startDown ** 2 + endDown ** 2 + (slow - log) ** 2), Math.abs(shortest - log));
  into[at + START_UP] = startUp;
  into[at + START_DOWN] = startDown;
  into[at + END_UP] = endUp;
  into[at + END_DOWN] = endDown;
  into[at + FAST] = fast;
  into[at + SLOW] = slow;
  into[at + LONGEST] = longest;
  into[at + SHORTEST] = shortest;
}

/** Where the length of an animal on a day stands; worked out where nobody has asked before. */
function slotOf(c, s, i, day) {
  const from = i * SLOTS;
  let slot = 0;
  while (slot < SLOTS - 1 && s.slotDays[from + slot] !== day && s.slotDays[from + slot] !== 0) slot += 1;
  const at = (from + slot) * FIGURES;
  if (s.slotDays[from + slot] !== day) {
    s.slotDays[from + slot] = day;
    writeLength(c, i, day, s.lengths, at);
  }
  return at;
}

const root = (one, other) => Math.sqrt(one * one + other * other);

const margin = (p, lengths, error) => Math.min(lengths - p.logMouth + root(p.mouthError, error), lengths - p.logCap + error);

function marginOf(p, one, at, other, there) {
  const error = p.shared ? root(one[at + START_UP], other[there + START_DOWN]) : root(one[at + UP], other[there + DOWN]);
  return margin(p, one[at + LOG] - other[there + LOG], error);
}

/** When the one has become long enough, in years; Infinity when it never does up to then. */
export function crossing(a0, aEnd, aRate, b0, bEnd, bRate, ratio, until, needsDate = true) {
  if (a0 - ratio * b0 >= 0) return 0;
  const aRoom = Math.max(0, aEnd - a0);
  if (a0 + aRoom < ratio * b0) return Infinity;
  const bRoom = ratio * Math.max(0, bEnd - b0);
  const k = a0 + aRoom - (ratio * b0 + bRoom);
  const aLeft = aRoom * Math.exp(-aRate * until);
  const bLeft = bRoom * Math.exp(-bRate * until);
  let high = until;
  if (k - aLeft + bLeft < 0) {
    if (!(aRoom * aRate > bRoom * bRate && aLeft * aRate < bLeft * bRate)) return Infinity;
    high = Math.log((bRoom * bRate) / (aRoom * aRate)) / (bRate - aRate);
    if (!(high > 0 && high < until && k - aRoom * Math.exp(-aRate * high) + bRoom * Math.exp(-bRate * high) >= 0)) return Infinity;
  }
  if (!needsDate) return high;
  let low = 0;
  let t = high / 2;
  for (let step = 0; step < 200 && high - low > 1e-10; step += 1) {
    const a = aRoom * Math.exp(-aRate * t);
    const b = bRoom * Math.exp(-bRate * t);
    const value = k - a + b;
    if (value >= 0) high = t;
    else low = t;
    const move = -value / (aRate * a - bRate * b);
    const next = Math.abs(move) < 4e-11 ? t + (value >= 0 ? -4e-11 : 4e-11) : t + move;
    t = (step < 12 || step % 2 === 0) && next > low && next < high ? next : (low + high) / 2;
  }
  return high;
}

const grownBy = (c, i, day) => lengthAt(c.start[i], c.end[i], Math.exp(-c.rate[i] * Math.max(0, (day - c.lengthDay[i]) / YEAR)));

/** One object for all pairs, filled anew for each. */
const PAIR = { logMouth: 0, mouthError: 0, logCap: 0, shared: false };

/** Verdicts on all ordered pairs; returns how many fail or cannot be told. */
export function bareVerdicts(c, s) {
  const n = c.count;
  s.slotDays.fill(0);
  s.outcome.fill(0);
  let lastDay = c.horizon;
  for (let i = 0; i < n; i += 1) lastDay = Math.max(lastDay, c.arrival[i]);
  for (let i = 0; i < n; i += 1) {
    const top = Math.max(s.lengths[slotOf(c, s, i, lastDay) + LONGEST], Math.log(c.full[i]) + c.endUp[i]);
    s.deepest[i] = top + Math.log(c.limit[i]) + Math.sqrt(c.mouthSquares[i]);
    s.longest[i] = Number.isNaN(c.limit[i]) ? Number.NaN : top - Math.log(Math.min(c.cap[i], c.capAtWorst[i]));
    const bottom = Math.min(s.lengths[slotOf(c, s, i, c.arrival[i]) + SHORTEST], Math.log(c.full[i]) - c.endDown[i]);
    s.shallowest[i] = bottom + Math.log(c.depth[i]) - c.depthError[i];
    s.shortest[i] = Number.isNaN(c.depth[i]) ? Number.NaN : bottom;
  }
  let found = 0;
  for (let i = 0; i < n; i += 1) {
    if (c.swallows[i] === 0) continue;
    for (let j = 0; j < n; j += 1) {
      if (i === j || c.body[j] === 0) continue;
      if (s.deepest[i] < s.shallowest[j] - 1e-9 || s.longest[i] < s.shortest[j] - 1e-9) continue;
      if (verdict(c, s, i, j, i * n + j)) found += 1;
    }
  }
  return found;
}

function put(c, s, i, j, at, outcome, easy, later, day) {
  const interest = c.body[j] === 1 ? c.toFish[i] : c.body[j] === 2 ? c.toShrimp[i] : c.toCrab[i];
  s.outcome[at] = outcome;
  s.level[at] = Math.max(0, LEVELS[2 * interest + (easy ? 1 : 0)] - (later ? 1 : 0) - c.spared[j]);
  s.day[at] = day;
  return true;
}

function verdict(c, s, i, j, at) {
  const from = Math.max(c.arrival[i], c.arrival[j]);
  let until = Math.min(c.horizon, c.leave[i] - 1, c.leave[j] - 1);
  if (until < from) {
    if (!(from > c.horizon && c.leave[i] > from && c.leave[j] > from)) return false;
    until = from;
  }
  const [a0, b0] = [grownBy(c, i, from), grownBy(c, j, from)];
  const mouth = c.depth[j] / c.limit[i];
  const ratio = Math.max(mouth, c.cap[i]);
  if (Number.isNaN(a0 + b0 + ratio)) return put(c, s, i, j, at, 2, false, false, -1);
  const [aEnd, bEnd] = [Math.max(c.end[i], c.start[i]), Math.max(c.end[j], c.start[j])];
  const [aFull, bFull] = [Math.max(c.full[i], a0), Math.max(c.full[j], b0)];
  const years = (until - from) / YEAR;
  const easyRatio = Math.max(mouth / c.smallShare, ratio);
  const cross = crossing(a0, aEnd, c.rate[i], b0, bEnd, c.rate[j], ratio, years);
  if (cross <= years) {
    const easy = crossing(a0, aEnd, c.rate[i], b0, bEnd, c.rate[j], easyRatio, years, false) <= years;
    return put(c, s, i, j, at, 1, easy, false, from + Math.floor(cross * YEAR));
  }
  const last = Math.max(c.horizon, until);
  const stays = c.leave[i] > last && c.leave[j] > last;
  const later = years + c.lookBeyond;
  if (stays && (aFull >= ratio * bFull || crossing(a0, aFull, c.rate[i], b0, bEnd, c.rate[j], ratio, later, false) < Infinity)) {
    return put(c, s, i, j, at, 1, aFull >= easyRatio * bFull, true, -1);
  }
  PAIR.logMouth = Math.log(mouth);
  PAIR.mouthError = Math.sqrt(c.mouthSquares[i] + c.depthError[j] * c.depthError[j]);
  PAIR.logCap = Math.log(c.capAtWorst[i]);
  PAIR.shared = c.kind[i] === c.kind[j];
  const doubtful = firstDoubtful(c, s, PAIR, i, j, from, until);
  if (doubtful < Infinity) return put(c, s, i, j, at, 2, false, false, doubtful);
  if (stays && margin(PAIR, Math.log(aFull / bFull), PAIR.shared ? 0 : root(c.endUp[i], c.endDown[j])) >= 0) {
    return put(c, s, i, j, at, 2, false, true, -1);
  }
  return false;
}

function firstDoubtful(c, s, p, i, j, from, until) {
  const { lengths } = s;
  const [aLast, bFirst] = [slotOf(c, s, i, until), slotOf(c, s, j, from)];
  if (margin(p, lengths[aLast + LONGEST] - lengths[bFirst + SHORTEST], 0) < 0) return Infinity;
  const aFirst = slotOf(c, s, i, from);
  if (marginOf(p, lengths, aFirst, lengths, bFirst) >= 0) return from;
  const last = Math.ceil((until - from) / LOOK_DAYS);
  if (last === 0) return Infinity;
  const look = lookIn(c, s, p, i, j, from, until, last, 0, last, aFirst, bFirst, aLast, slotOf(c, s, j, until));
  if (look < 0) return Infinity;
  let before = look === 1 ? from : until - LOOK_DAYS * (last - look + 1);
  let first = until - LOOK_DAYS * (last - look);
  let atBefore = marginOf(p, lengths, slotOf(c, s, i, before), lengths, slotOf(c, s, j, before));
  let atFirst = marginOf(p, lengths, slotOf(c, s, i, first), lengths, slotOf(c, s, j, first));
  for (let step = 0; first - before > 1; step += 1) {
    const onLine = before + Math.ceil(((first - before) * atBefore) / (atBefore - atFirst));
    const day = step % 3 === 2 ? (before + first) >> 1 : Math.min(Math.max(onLine, before + 1), first - 1);
    writeLength(c, i, day, s.spare, 0);
    writeLength(c, j, day, s.spare, FIGURES);
    const there = marginOf(p, s.spare, 0, s.spare, FIGURES);
    if (there >= 0) {
      first = day;
      atFirst = there;
    } else {
      before = day;
      atBefore = there;
    }
  }
  return first;
}

function lookIn(c, s, p, i, j, from, until, last, one, other, aOne, bOne, aOther, bOther) {
  const l = s.lengths;
  if (other - one === 1) return marginOf(p, l, aOther, l, bOther) >= 0 ? other : -1;
  const error = p.shared
    ? root(l[aOne + START_UP], l[bOne + START_DOWN])
    : Math.sqrt(
        l[aOne + START_UP] ** 2 +
          l[aOther + END_UP] ** 2 +
          (l[aOther + FAST] - l[aOne + LOG]) ** 2 +
          l[bOne + START_DOWN] ** 2 +
          l[bOther + END_DOWN] ** 2 +
          (l[bOther + LOG] - l[bOne + SLOW]) ** 2,
      );
  if (margin(p, l[aOther + LOG] - l[bOne + LOG], error) < -1e-9) return -1;
  const middle = (one + other) >> 1;
  const day = until - LOOK_DAYS * (last - middle);
  const [a, b] = [slotOf(c, s, i, day), slotOf(c, s, j, day)];
  const found = lookIn(c, s, p, i, j, from, until, last, one, middle, aOne, bOne, a, b);
  return found >= 0 ? found : lookIn(c, s, p, i, j, from, until, last, middle, other, a, b, aOther, bOther);
}

/** The centre alone: whether and from which day the body passes, by the horizon or at full size; no errors, no doubts, no levels. */
export function bareCentre(c, s) {
  const n = c.count;
  let found = 0;
  for (let i = 0; i < n; i += 1) {
    if (c.swallows[i] === 0 || Number.isNaN(c.limit[i] + c.start[i] + c.end[i])) continue;
    for (let j = 0; j < n; j += 1) {
      if (i === j || c.body[j] === 0) continue;
      const ratio = Math.max(c.depth[j] / c.limit[i], c.cap[i]);
      // Lengths never fall, and nothing exceeds its full size.
      if (!(c.full[i] >= ratio * c.start[j])) continue;
      const from = Math.max(c.arrival[i], c.arrival[j]);
      const until = Math.min(c.horizon, c.leave[i] - 1, c.leave[j] - 1);
      if (until < from) continue;
      const [a0, b0] = [grownBy(c, i, from), grownBy(c, j, from)];
      const years = (until - from) / YEAR;
      const cross = crossing(a0, Math.max(c.end[i], c.start[i]), c.rate[i], b0, Math.max(c.end[j], c.start[j]), c.rate[j], ratio, years);
      if (cross > years && !(c.full[i] >= ratio * c.full[j])) continue;
      s.outcome[i * n + j] = 1;
      s.day[i * n + j] = cross <= years ? from + Math.floor(cross * YEAR) : -1;
      found += 1;
    }
  }
  return found;
}

/** Days of a month. */
const MONTH = 30;

/** The same verdicts asked month by month up to the horizon: at the centre and, where that passes, at the point less favourable to the prey. */
export function monthlyVerdicts(c, s) {
  const n = c.count;
  let found = 0;
  for (let i = 0; i < n; i += 1) {
    if (c.swallows[i] === 0) continue;
    for (let j = 0; j < n; j += 1) {
      if (i === j || c.body[j] === 0) continue;
      const mouth = c.depth[j] / c.limit[i];
      const logRatio = Math.log(Math.max(mouth, c.cap[i]));
      PAIR.logMouth = Math.log(mouth);
      PAIR.mouthError = Math.sqrt(c.mouthSquares[i] + c.depthError[j] * c.depthError[j]);
      PAIR.logCap = Math.log(c.capAtWorst[i]);
      PAIR.shared = c.kind[i] === c.kind[j];
      const until = Math.min(c.horizon, c.leave[i] - 1, c.leave[j] - 1);
      let [fails, doubts] = [Infinity, Infinity];
      for (let day = Math.max(c.arrival[i], c.arrival[j]); day <= until && fails === Infinity; day += MONTH) {
        writeLength(c, i, day, s.spare, 0);
        writeLength(c, j, day, s.spare, FIGURES);
        if (s.spare[LOG] - s.spare[FIGURES + LOG] >= logRatio) fails = day;
        else if (doubts === Infinity && marginOf(PAIR, s.spare, 0, s.spare, FIGURES) >= 0) doubts = day;
      }
      s.day[i * n + j] = Math.min(fails, doubts);
      if (fails < Infinity || doubts < Infinity) found += 1;
    }
  }
  return found;
}

/** The centre alone, month by month. */
export function monthlyCentre(c, s) {
  const n = c.count;
  let found = 0;
  for (let i = 0; i < n; i += 1) {
    if (c.swallows[i] === 0) continue;
    for (let j = 0; j < n; j += 1) {
      if (i === j || c.body[j] === 0) continue;
      const ratio = Math.max(c.depth[j] / c.limit[i], c.cap[i]);
      const until = Math.min(c.horizon, c.leave[i] - 1, c.leave[j] - 1);
      for (let day = Math.max(c.arrival[i], c.arrival[j]); day <= until; day += MONTH) {
        if (grownBy(c, i, day) < ratio * grownBy(c, j, day)) continue;
        s.day[i * n + j] = day;
        found += 1;
        break;
      }
    }
  }
  return found;
}

/**
 * The first day on which one animal has become long enough for another, on hundreds of thousands of pairs that are hard to tell: ratios at or
 * just off the peak of the difference, starts that touch, equal rates, lengths beyond the asymptote. The reference finds the peak by halving
 * the slope and the day by halving the difference, with nothing of the code it checks.
 */
import { firstCrossing } from '@commensal/core';
import { randomFrom } from './measure.mjs';
import { goalRow, heading, row } from './table.mjs';

const PAIRS = 400_000;
/** A difference of lengths that is lost in their rounding, in cm: classes that hang on less are no classes. */
const HAIR_CM = 1e-11;
const YEARS_OFF = 1e-6;

const lengthAt = ({ startCm, asymptoticCm, ratePerYear }, years) =>
  startCm >= asymptoticCm ? startCm : asymptoticCm - (asymptoticCm - startCm) * Math.exp(-ratePerYear * years);

/** Where the difference is greatest between 0 and the end. */
function peakOf(a, b, ratio, end) {
  const slopeOf = ({ startCm, asymptoticCm, ratePerYear }, t) =>
    Math.max(0, asymptoticCm - startCm) * ratePerYear * Math.exp(-ratePerYear * t);
  const slope = (t) => slopeOf(a, t) - ratio * slopeOf(b, t);
  if (slope(0) <= 0) return lengthAt(a, 0) - ratio * lengthAt(b, 0) >= lengthAt(a, end) - ratio * lengthAt(b, end) ? 0 : end;
  if (slope(end) >= 0) return end;
  let [low, high] = [0, end];
  for (let step = 0; step < 70; step += 1) {
    const middle = (low + high) / 2;
    if (slope(middle) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** The first time at which the difference is at least so much; Infinity when never. */
function firstAt(lead, least, peak) {
  if (lead(0) >= least) return 0;
  if (lead(peak) < least) return Number.POSITIVE_INFINITY;
  let [low, high] = [0, peak];
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2;
    if (lead(middle) >= least) high = middle;
    else low = middle;
  }
  return high;
}

const OFF = [1 - 1e-3, 1 - 1e-6, 1 - 1e-8, 1, 1 + 1e-8, 1 + 1e-6, 1 + 1e-3];

/** Pairs of five sorts in turn. */
function pairOf(random, index) {
  const between = (low, high) => low + (high - low) * random();
  const anyRate = () => Math.exp(between(Math.log(0.03), Math.log(16)));
  const growing = () => ({ startCm: between(1, 40), asymptoticCm: between(2, 80), ratePerYear: anyRate() });
  const off = OFF[Math.floor(random() * OFF.length)];
  const untilYears = between(0.05, 30);
  const [a, b] = [growing(), growing()];
  switch (index % 5) {
    case 0:
      return { a, b, ratio: between(0.2, 6), untilYears };
    case 1:
      return { a, b: { ...b, ratePerYear: a.ratePerYear }, ratio: between(0.2, 6), untilYears };
    case 2: {
      const time = untilYears * [0, 0.5, 1, 1000][Math.floor(random() * 4)];
      return { a, b, ratio: (lengthAt(a, time) / lengthAt(b, time)) * off, untilYears };
    }
    case 3: {
      const stunted = { ...b, asymptoticCm: b.startCm / between(1, 2) };
      return { a, b: stunted, ratio: (a.asymptoticCm / stunted.startCm) * off, untilYears };
    }
    default: {
      // The one grows fast and early, the other slowly and far: the ratio is about the greatest that is ever reached.
      const early = { startCm: between(2, 8), asymptoticCm: between(12, 30), ratePerYear: between(1.5, 8) };
      const late = { startCm: between(2, 6), asymptoticCm: between(30, 60), ratePerYear: between(0.03, 0.6) };
      let most = 0;
      for (let step = 0; step <= 40; step += 1) most = Math.max(most, lengthAt(early, step / 10) / lengthAt(late, step / 10));
      return { a: early, b: late, ratio: most * off, untilYears: between(5, 30) };
    }
  }
}

/** Prints the rows, and returns whether all was right. */
export function checkCrossings() {
  const random = randomFrom(400);
  const classes = { never: 0, 'at once': 0, later: 0 };
  let [wrong, late, worst] = [0, 0, 0];
  for (let index = 0; index < PAIRS; index += 1) {
    const { a, b, ratio, untilYears } = pairOf(random, index);
    const found = firstCrossing(a, b, ratio, untilYears);
    const lead = (t) => lengthAt(a, t) - ratio * lengthAt(b, t);
    const peak = peakOf(a, b, ratio, untilYears);
    classes[found === 0 ? 'at once' : found === Infinity ? 'never' : 'later'] += 1;
    // The class is wrong where it is so by more than a hair.
    if (found === Infinity ? lead(peak) > HAIR_CM : found > untilYears || lead(found) < -HAIR_CM) wrong += 1;
    if (found === Infinity) continue;
    // The date lies between those at which the one is short by a hair and long by a hair.
    const early = firstAt(lead, -HAIR_CM, peak) - found;
    const after = found - Math.min(untilYears, firstAt(lead, HAIR_CM, peak));
    worst = Math.max(worst, early, after);
    if (early > YEARS_OFF || after > YEARS_OFF) late += 1;
  }
  heading(`Exactness: ${PAIRS} adversarial pairs against halving`);
  row(
    'pairs by class',
    Object.entries(classes)
      .map(([name, count]) => `${name} ${count}`)
      .join(', '),
  );
  goalRow('wrong classes', wrong, { atMost: 0, show: String });
  goalRow('dates further off than 1e-6 year', late, { atMost: 0, show: String });
  row('largest error of a date, in years, beyond what the rounding of lengths leaves open', worst.toExponential(1));
  return wrong === 0 && late === 0;
}

/**
 * The swallow verdict with its first day, over all ordered pairs of a tank: the public rule with its finding objects, a bare loop
 * over number columns with the same central arithmetic, monthly stepping, and a general JSON rule interpreter that only asks
 * about today.
 */
import { check, gape } from '@commensal/core';
import jsonLogic from 'json-logic-js';
import { medians, per } from './measure.mjs';
import { tankOf } from './tanks.mjs';

const YEAR = 365.25;

/** The columns that the bare loop runs over: one number an animal in each. */
function columnsOf(stock) {
  const animals = stock.animals.filter(
    ({ kind, lengthCm }) => lengthCm && kind.asymptoticCm && kind.ratePerYear && kind.depthPerTotal && kind.totalPerStandard,
  );
  const column = (read) => Float64Array.from(animals, read);
  return {
    count: animals.length,
    start: column((a) => a.lengthCm.centre),
    end: column((a) => Math.max(a.kind.asymptoticCm.centre, a.lengthCm.centre)),
    rate: column((a) => a.kind.ratePerYear.centre),
    depth: column((a) => a.kind.depthPerTotal.centre),
    gape: column((a) =>
      a.kind.gapeClass === 'notGapeLimited' || !a.kind.swallow ? 0 : a.kind.swallow.centre / a.kind.totalPerStandard.centre,
    ),
    cap: column((a) => a.kind.totalPerStandard.centre / 0.7),
    day: column((a) => a.entryDay ?? stock.day),
    today: stock.day,
    horizon: stock.horizonDay,
  };
}

/** Exact first day by brackets and halving over the columns; -1 where never. */
function bare(c, out) {
  let hits = 0;
  for (let i = 0; i < c.count; i += 1) {
    if (c.gape[i] === 0) continue;
    for (let j = 0; j < c.count; j += 1) {
      if (i === j) continue;
      const from = Math.max(c.today, c.day[i], c.day[j]);
      const years = (c.horizon - from) / YEAR;
      const ratio = Math.max(c.depth[j] / c.gape[i], c.cap[i]);
      const si = c.end[i] - (c.end[i] - c.start[i]) * Math.exp((-c.rate[i] * Math.max(0, from - c.day[i])) / YEAR);
      const sj = c.end[j] - (c.end[j] - c.start[j]) * Math.exp((-c.rate[j] * Math.max(0, from - c.day[j])) / YEAR);
      let first = -1;
      if (si >= ratio * sj) first = 0;
      else if (c.end[i] >= ratio * sj) {
        const a = c.end[i] - si;
        const b = ratio * (c.end[j] - sj);
        const k = c.end[i] - ratio * c.end[j];
        const f = (t) => k - a * Math.exp(-c.rate[i] * t) + b * Math.exp(-c.rate[j] * t);
        let high = years;
        if (f(high) < 0) {
          const turn = Math.log((b * c.rate[j]) / (a * c.rate[i])) / (c.rate[j] - c.rate[i]);
          high = turn > 0 && turn < years && f(turn) >= 0 ? turn : -1;
        }
        if (high > 0) {
          let low = 0;
          while (high - low > 1e-6) {
            const middle = (low + high) / 2;
            if (f(middle) >= 0) high = middle;
            else low = middle;
          }
          first = high;
        }
      }
      if (first >= 0) {
        out[hits] = first;
        hits += 1;
      }
    }
  }
  return hits;
}

/** The same asked month by month. */
function monthly(c, out) {
  let hits = 0;
  for (let i = 0; i < c.count; i += 1) {
    if (c.gape[i] === 0) continue;
    for (let j = 0; j < c.count; j += 1) {
      if (i === j) continue;
      const from = Math.max(c.today, c.day[i], c.day[j]);
      const ratio = Math.max(c.depth[j] / c.gape[i], c.cap[i]);
      for (let day = from; day <= c.horizon; day += 30) {
        const li = c.end[i] - (c.end[i] - c.start[i]) * Math.exp((-c.rate[i] * Math.max(0, day - c.day[i])) / YEAR);
        const lj = c.end[j] - (c.end[j] - c.start[j]) * Math.exp((-c.rate[j] * Math.max(0, day - c.day[j])) / YEAR);
        if (li >= ratio * lj) {
          out[hits] = day;
          hits += 1;
          break;
        }
      }
    }
  }
  return hits;
}

const TODAY = {
  and: [
    { '<=': [{ '*': [{ var: 'prey.length' }, { var: 'prey.depth' }] }, { '*': [{ var: 'predator.length' }, { var: 'predator.gape' }] }] },
    { '<=': [{ '*': [{ var: 'prey.length' }, { var: 'predator.cap' }] }, { var: 'predator.length' }] },
  ],
};

function interpreted(rows) {
  let hits = 0;
  for (const predator of rows) for (const prey of rows) if (predator !== prey && jsonLogic.apply(TODAY, { predator, prey })) hits += 1;
  return hits;
}

/** Prints a row a tank size. */
export function benchSwallow() {
  console.log('Swallow verdict with first day, a pair');
  for (const animals of [12, 40]) {
    const stock = tankOf(animals, 7);
    const columns = columnsOf(stock);
    const out = new Float64Array(columns.count * columns.count);
    const rows = Array.from({ length: columns.count }, (_, i) => ({
      length: columns.start[i],
      gape: columns.gape[i],
      depth: columns.depth[i],
      cap: columns.cap[i],
    }));
    const pairs = columns.count * (columns.count - 1);
    const time = medians({
      rule: () => check(stock, [gape]),
      bare: () => bare(columns, out),
      monthly: () => monthly(columns, out),
      interpreted: () => interpreted(rows),
    });
    const ratio = (name) => (time[name] / time.rule).toFixed(2);
    console.log(
      `  ${animals} animals: rule with doubts and findings ${per(time.rule, pairs)}; bare loop, centre only ${per(time.bare, pairs)}`,
    );
    console.log(
      `    rule over bare loop ${(time.rule / time.bare).toFixed(1)}; monthly stepping over rule ${ratio('monthly')}; JSON interpreter, today only, over rule ${ratio('interpreted')}`,
    );
  }
}

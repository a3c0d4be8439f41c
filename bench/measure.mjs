/**
 * Times of several ways of doing one thing, taken in turns within one run. Absolute times say little on a shared machine; the
 * ratios between ways measured side by side are what counts.
 */

/** Median seconds of one call of each way. Every way is run in every round, so that a slow moment hits them all. */
export function medians(ways, { rounds = 15, secondsARound = 0.05, secondsOfWarmth = 0.5 } = {}) {
  const calls = {};
  for (const [name, way] of Object.entries(ways)) {
    warm(way, secondsOfWarmth);
    let count = 1;
    for (;;) {
      const seconds = timeOf(way, count);
      if (seconds >= secondsARound || count >= 1_000_000) break;
      count = Math.ceil(count * Math.min(10, Math.max(1.5, secondsARound / Math.max(seconds, 1e-6))));
    }
    calls[name] = count;
  }
  const times = Object.fromEntries(Object.keys(ways).map((name) => [name, []]));
  for (let round = 0; round < rounds; round += 1) {
    for (const [name, way] of Object.entries(ways)) times[name].push(timeOf(way, calls[name]) / calls[name]);
  }
  return Object.fromEntries(Object.entries(times).map(([name, list]) => [name, list.sort((a, b) => a - b)[Math.floor(list.length / 2)]]));
}

/** Until the engine has compiled what is called often: where much code takes turns, or the machine is busy, that takes seconds. */
function warm(way, seconds) {
  const from = performance.now();
  do way();
  while (performance.now() - from < seconds * 1000);
}

function timeOf(way, count) {
  const from = performance.now();
  for (let call = 0; call < count; call += 1) way();
  return (performance.now() - from) / 1000;
}

/** A small generator with a seed (mulberry32), so that every run measures the same. */
export function randomFrom(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export const per = (seconds, many = 1) => {
  const one = seconds / many;
  if (one < 1e-6) return `${(one * 1e9).toFixed(0)} ns`;
  if (one < 1e-3) return `${(one * 1e6).toFixed(1)} µs`;
  return `${(one * 1e3).toFixed(2)} ms`;
};

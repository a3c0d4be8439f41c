/** A whole plan from a wish list of species of the sample: the best set, its days, the reasons for what is left out, what else could be. */
import { plan } from '@commensal/core';
import { records } from '@commensal/species-sample';
import { randomFrom } from './measure.mjs';
import { heading, row } from './table.mjs';
import { library, situationOf } from './tanks.mjs';

const LISTS = 6;

/** Different species, one to three of each, of any priority. */
function wishesOf(count, seed) {
  const random = randomFrom(seed);
  const pool = [...records];
  return Array.from({ length: count }, () => {
    const [{ id }] = pool.splice(Math.floor(random() * pool.length), 1);
    const least = 1 + Math.floor(random() * 2);
    return { species: id, count: [least, least + Math.floor(random() * 2)], priority: 1 + Math.floor(random() * 10) };
  });
}

const seconds = (ms) => `${(ms / 1000).toFixed(2)} s`;

export function benchPlan(counts = [12, 24, 60]) {
  heading('A whole plan from a random list, with its reasons (absolute: hangs on this machine and its load)');
  const base = { ...situationOf(2, 1), introductions: [] };
  plan({ ...base, wishes: wishesOf(12, 99) }, library);
  for (const count of counts) {
    const ms = [];
    let [proven, chosen] = [0, 0];
    for (let list = 1; list <= LISTS; list += 1) {
      const from = performance.now();
      const planned = plan({ ...base, wishes: wishesOf(count, list) }, library);
      ms.push(performance.now() - from);
      proven += planned.proven ? 1 : 0;
      chosen += planned.chosen.length;
    }
    ms.sort((one, other) => one - other);
    row(
      `${count} wishes, ${Math.round(chosen / LISTS)} chosen: median, slowest, proven`,
      `${seconds(ms[LISTS / 2])}, ${seconds(ms.at(-1))}, ${proven} of ${LISTS}`,
    );
  }
}

/** A full check of a tank, all rules, findings built; beside it the pair rules alone in a general JSON rule interpreter. */
import { check, rules } from '@commensal/core';
import { medians, per } from './measure.mjs';
import { tankOf } from './tanks.mjs';

/** Prints a row a tank size, and what each rule costs. */
export function benchCheck() {
  console.log('Full check of a tank, all rules, findings built');
  for (const animals of [12, 40]) {
    const stock = tankOf(animals, 11);
    const withoutSimulation = rules.filter((rule) => rule.id !== 'nitrogen');
    const ways = { all: () => check(stock, rules), closedForm: () => check(stock, withoutSimulation) };
    for (const rule of rules) ways[rule.id] = () => check(stock, [rule]);
    const time = medians(ways, 9);
    console.log(`  ${animals} animals: ${per(time.closedForm)} without the nitrogen simulation, ${per(time.all)} with it`);
    const dearest = rules.map(({ id }) => [id, time[id]]).sort(([, one], [, other]) => other - one);
    console.log(`    ${dearest.map(([id, seconds]) => `${id} ${per(seconds)}`).join(', ')}`);
  }
}

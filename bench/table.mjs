/** How results are printed: a row a goal, the ratio measured, the goal beside it, and whether it was reached. */

const goals = { reached: 0, missed: 0 };

export const heading = (text) => console.log(`\n${text}`);

/** A figure that no goal is set for. */
export const row = (what, value) => console.log(`  ${what.padEnd(WIDTH)} ${value}`);

/** A figure against the goal `at most` or `at least`; `goal` and `value` in the same unit. */
export function goalRow(what, value, { atMost, atLeast, show = (number) => number.toFixed(2) }) {
  const isReached = atMost === undefined ? value >= atLeast : value <= atMost;
  goals[isReached ? 'reached' : 'missed'] += 1;
  const goal = atMost === undefined ? `at least ${show(atLeast)}` : `at most ${show(atMost)}`;
  console.log(`  ${what.padEnd(WIDTH)} ${show(value).padStart(9)}   goal ${goal}: ${isReached ? 'reached' : 'NOT REACHED'}`);
}

export const times = (number) => (number >= 10 ? number.toFixed(0) : number.toFixed(2));

export const summary = () => console.log(`\n${goals.reached} goals reached, ${goals.missed} not.`);

const WIDTH = 92;

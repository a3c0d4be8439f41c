/** A full check of a tank, all rules, findings built; beside it the rules on pairs alone in a general JSON rule interpreter. */
import { check, rules } from '@commensal/core';
import { medians, per } from './measure.mjs';
import { interpretPairs, PAIR_RULES, rowsOf } from './pair-rules.mjs';
import { goalRow, heading, row, times } from './table.mjs';
import { tanksOf } from './tanks.mjs';

/** A day a month up to the horizon. */
const monthsOf = ({ day, horizonDay }) => Array.from({ length: Math.floor((horizonDay - day) / 30) + 1 }, (_, month) => day + 30 * month);

const milliseconds = (number) => `${number.toFixed(2)} ms`;

/** Prints the rows of one tank size. */
export function benchCheck(animals, atMostMs) {
  const tanks = tanksOf(animals).map((stock) => ({ stock, rows: rowsOf(stock), months: monthsOf(stock).map((day) => rowsOf(stock, day)) }));
  const closed = rules.filter(({ id }) => id !== 'nitrogen');
  const findings = tanks.reduce((sum, { stock }) => sum + check(stock, rules).findings.length, 0) / tanks.length;
  heading(
    `Full check, ${rules.length} rules, findings built: ${tanks.length} tanks of ${animals} animals, ${findings.toFixed(0)} findings each`,
  );
  const overAll = (way) => () => {
    for (const tank of tanks) way(tank);
  };
  const ways = {
    all: overAll(({ stock }) => check(stock, rules)),
    closed: overAll(({ stock }) => check(stock, closed)),
    pairs: overAll(({ stock }) => check(stock, PAIR_RULES)),
    interpreted: overAll(({ rows }) => interpretPairs(rows)),
  };
  const time = medians(ways, { secondsOfWarmth: 4 });
  const aTank = (name) => time[name] / tanks.length;
  goalRow('a check without the nitrogen simulation (absolute: hangs on this machine and its load)', aTank('closed') * 1000, {
    atMost: atMostMs,
    show: milliseconds,
  });
  row('a check with it', milliseconds(aTank('all') * 1000));
  goalRow(
    'as the goal is put: pair rules alone, today and centre only, in json-logic-js, over that check',
    time.interpreted / time.closed,
    { atLeast: 50, show: times },
  );
  row('  the same over the check with the nitrogen simulation', times(time.interpreted / time.all));
  const monthly = medians({ interpreted: overAll(({ months }) => months.forEach(interpretPairs)) }, { rounds: 3 });
  goalRow(
    'nearer to like with like: those asked month by month to the horizon, over the same rules here',
    monthly.interpreted / time.pairs,
    { atLeast: 50, show: times },
  );
  const each = medians(Object.fromEntries(rules.map((rule) => [rule.id, overAll(({ stock }) => check(stock, [rule]))])), {
    rounds: 5,
    secondsARound: 0.02,
  });
  const dearest = rules.map(({ id }) => [id, each[id] / tanks.length]).sort(([, one], [, other]) => other - one);
  row(
    'a check by one rule alone',
    dearest
      .slice(0, 6)
      .map(([id, seconds]) => `${id} ${per(seconds)}`)
      .join(', '),
  );
}

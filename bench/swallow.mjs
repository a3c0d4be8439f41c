/**
 * The swallow verdict over all ordered pairs of a tank, as the public rule gives it with its finding objects, beside a bare loop over columns
 * that comes to the same verdicts, the centre alone, month-by-month stepping, and a general JSON rule interpreter that only asks about today.
 */
import { check, gape, optionsOf } from '@commensal/core';
import jsonLogic from 'json-logic-js';
import { bareCentre, bareVerdicts, columnsOf, monthlyCentre, monthlyVerdicts, OUTCOMES, scratchOf } from './bare-swallow.mjs';
import { medians, per } from './measure.mjs';
import { goalRow, heading, row, times } from './table.mjs';
import { tanksOf } from './tanks.mjs';

const LEVELS = ['note', 'warning', 'error'];

/** The ordered pairs on which the bare loop and the rule do not come to one outcome, level and day. */
function differing({ stock, columns, scratch, options }) {
  bareVerdicts(columns, scratch);
  const at = new Map(stock.animals.map(({ id }, index) => [id, index]));
  let differ = 0;
  gape.measure(stock, options, (measure) => {
    const { outcome, level, message } = gape.judge(measure, options);
    const pair = at.get(measure.predator.id) * columns.count + at.get(measure.prey.id);
    const undated = message === 'gape.unknown' || message.endsWith('AtFullSize');
    const day = undated ? -1 : Math.min(measure.firstDay, measure.possibleDay);
    const isSame =
      OUTCOMES[scratch.outcome[pair]] === outcome &&
      (outcome === 'passed' || (LEVELS[scratch.level[pair]] === level && scratch.day[pair] === day));
    if (!isSame) differ += 1;
  });
  return differ;
}

/** The rule's verdicts without finding objects: what the bare loop answers too. */
function verdicts({ stock, options }) {
  let found = 0;
  gape.measure(stock, options, (measure) => {
    const { outcome } = gape.judge(measure, options);
    if (outcome === 'failed' || outcome === 'cantTell') found += 1;
  });
  return found;
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

const rowsOf = ({ count, start, depth, limit, cap }) =>
  Array.from({ length: count }, (_, i) => ({ length: start[i], depth: depth[i], gape: limit[i], cap: cap[i] }));

/** Prints the rows of one tank size. */
export function benchSwallow(animals) {
  const tanks = tanksOf(animals).map((stock) => {
    const options = optionsOf(gape, stock);
    const columns = columnsOf(stock, options);
    return { stock, options, columns, scratch: scratchOf(columns), rows: rowsOf(columns) };
  });
  const pairs = tanks.length * animals * (animals - 1);
  const findings = tanks.reduce((sum, { stock }) => sum + check(stock, [gape]).findings.length, 0);
  heading(`Swallow verdict with its first day: ${tanks.length} tanks of ${animals} animals, ${pairs} ordered pairs, ${findings} findings`);
  const overAll = (way) => () => {
    for (const tank of tanks) way(tank);
  };
  const time = medians({
    findings: overAll(({ stock }) => check(stock, [gape])),
    verdicts: overAll(verdicts),
    bare: overAll(({ columns, scratch }) => bareVerdicts(columns, scratch)),
    bareCentre: overAll(({ columns, scratch }) => bareCentre(columns, scratch)),
    monthly: overAll(({ columns, scratch }) => monthlyVerdicts(columns, scratch)),
    monthlyCentre: overAll(({ columns, scratch }) => monthlyCentre(columns, scratch)),
    interpreted: overAll(({ rows }) => interpreted(rows)),
  });
  const differ = tanks.reduce((sum, tank) => sum + differing(tank), 0);
  goalRow('pairs on which rule and bare loop differ in outcome, level or day', differ, { atMost: 0, show: String });
  const a = (name) => per(time[name], pairs);
  row('time a pair: rule with findings / its verdicts alone', `${a('findings')} / ${a('verdicts')}`);
  row('time a pair: bare loop, same verdicts / centre only', `${a('bare')} / ${a('bareCentre')}`);
  row('time a pair: month by month, same question / centre only', `${a('monthly')} / ${a('monthlyCentre')}`);
  const over = (name, other) => time[name] / time[other];
  goalRow('like with like: verdicts of the rule over the bare loop of the same verdicts', over('verdicts', 'bare'), { atMost: 1.6 });
  goalRow('the same with finding objects, safe lengths and what each doubt hangs on', over('findings', 'bare'), { atMost: 1.6 });
  goalRow('rule with findings over a bare loop that asks for the centre only', over('findings', 'bareCentre'), {
    atMost: 1.6,
    show: times,
  });
  goalRow('like with like: month by month at centre and worst, over the verdicts of the rule', over('monthly', 'verdicts'), {
    atLeast: 25,
    show: times,
  });
  goalRow('the same over the rule with finding objects', over('monthly', 'findings'), { atLeast: 25, show: times });
  goalRow('month by month at the centre only, over the rule with findings', over('monthlyCentre', 'findings'), {
    atLeast: 25,
    show: times,
  });
  row('  JSON rule interpreter, today and centre only, over the rule with finding objects', times(over('interpreted', 'findings')));
}

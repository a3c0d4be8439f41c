/**
 * `npm run review`: how often `gape` speaks over the whole sample. Takes every ordered pair of two species, counts what the rule
 * says by outcome and level, by predator and by prey, and lists pairs for somebody who knows the animals to read.
 *
 *   npm run review                                            the ways of meeting, counted
 *   npm run review -- --meeting settled --by predator         and by predator, or --by prey
 *   npm run review -- --list --predator thalassoma-lunare --outcome failed --level error
 *   npm run review -- --list --outcome cantTell --draw 20 --seed 7
 */
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';

const DATE = '2027-03-01';
const SITUATION = {
  $schema: 'https://commensal.example/schema/1.0/situation.schema.json',
  date: DATE,
  tank: { water: { value: 500, unit: 'L' } },
};

/** Ways in which a pair meets; a newcomer without a length comes in at the size usually sold, whichever that is. */
const MEETINGS = {
  together: {
    says: 'both enter on one day at the sizes usually sold',
    situation: (predator, prey) => ({ introductions: [{ date: DATE, animals: [{ species: predator.id }, { species: prey.id }] }] }),
  },
  measured: {
    says: 'the same, each measured at the middle of its usual size',
    situation: (predator, prey) => ({ introductions: [{ date: DATE, animals: [predator, prey].map(ofMiddleSize) }] }),
  },
  settled: {
    says: 'the predator has lived there fully grown, the prey enters at the size usually sold',
    situation: (predator, prey) => ({
      residents: [{ id: predator.id, species: predator.id, length: lengthOf(predator.size?.captiveAdult) }],
      introductions: [{ date: DATE, animals: [{ species: prey.id }] }],
    }),
  },
};

export const KINDS = ['failed error', 'failed warning', 'failed note', 'cantTell error', 'cantTell warning', 'cantTell note'];

function ofMiddleSize({ id, size }) {
  const { value, low, high, unit, lengthType } = size?.entry ?? {};
  const length = { value: value ?? (low + high) / 2, unit, ...(lengthType === undefined ? {} : { lengthType }) };
  return size?.entry === undefined ? { species: id } : { species: id, length };
}

/** A length of a record as a keeper would state it. */
function lengthOf(quantity) {
  if (quantity === undefined) return undefined;
  const { value, low, high, unit, lengthType } = quantity;
  const stated = { ...(value === undefined ? {} : { value }), ...(low === undefined ? {} : { low, high }) };
  return { ...stated, unit, ...(lengthType === undefined ? {} : { lengthType }) };
}

/** What the rule says of every ordered pair of two species of the sample: `passed`, `inapplicable`, or outcome and level. */
export async function reviewPairs(meeting) {
  const { check, gape, libraryOf, stockOf } = await import('@commensal/core');
  const { records, release, standIns } = await import('@commensal/species-sample');
  const library = libraryOf(records, standIns, release);
  const pairs = [];
  for (const predator of records) {
    for (const prey of records) {
      if (predator === prey) continue;
      const { stock, problems } = stockOf({ ...SITUATION, ...MEETINGS[meeting].situation(predator, prey) }, library);
      if (problems.length > 0) throw new Error(`review: ${JSON.stringify(problems)}`);
      // The prey is the predator of the other pair, and counted there.
      const finding = check(stock, [gape]).findings.find(({ subjects }) => subjects[0].id === predator.id);
      const outcome = finding?.outcome ?? (isAsked(predator, prey) ? 'passed' : 'inapplicable');
      pairs.push({ meeting, predator: predator.id, prey: prey.id, form: prey.form, outcome, kind: kindOf(outcome, finding), finding });
    }
  }
  return pairs;
}

const kindOf = (outcome, finding) => (finding === undefined ? outcome : `${outcome} ${finding.level}`);

const isAsked = (predator, prey) => predator.shape?.gapeClass?.value !== 'notGapeLimited' && ['fish', 'shrimp', 'crab'].includes(prey.form);

/** How many pairs came to each kind. */
export const counted = (pairs) =>
  Object.fromEntries(['inapplicable', 'passed', ...KINDS].map((kind) => [kind, pairs.filter((pair) => pair.kind === kind).length]));

/** So many of a list, drawn by a linear congruential generator, so that a seed names a draw for good. */
export function drawn(list, count, seed) {
  const rest = [...list];
  let state = seed >>> 0;
  const taken = [];
  while (taken.length < count && rest.length > 0) {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    taken.push(...rest.splice(Math.floor((state / 2 ** 32) * rest.length), 1));
  }
  return taken;
}

function line({ meeting, predator, prey, kind, finding }) {
  const start = [meeting, kind, `${predator} > ${prey}`, finding?.message ?? '', finding?.when ?? ''];
  if (finding === undefined) return start.slice(0, 3).join('  ');
  const { predatorLength, preyLength, limit, preyDepth, interest, settle, of } = finding.data;
  const figures =
    limit === undefined
      ? []
      : [`${predatorLength.value} cm against ${preyLength.value} cm`, `mouth ${limit.value} cm, body ${preyDepth.value} cm`];
  const doubt = settle === undefined ? [] : [`settle ${settle.keys.join(' ')} of ${of.animal}`];
  return [...start, ...figures, interest.keys.join(' '), ...doubt].filter((word) => word !== '').join('  ');
}

/** Rows of figures under a heading, as text. */
function table(heading, rows) {
  const columns = ['', ...KINDS];
  const cells = [[heading, ...KINDS], ...rows.map(([name, counts]) => [name, ...KINDS.map((kind) => String(counts[kind]))])];
  const widths = columns.map((_, at) => Math.max(...cells.map((row) => row[at].length)));
  return cells.map((row) =>
    row
      .map((cell, at) => (at === 0 ? cell.padEnd(widths[0]) : cell.padStart(widths[at])))
      .join('  ')
      .trimEnd(),
  );
}

function byWhom(pairs, who) {
  const names = [...new Set(pairs.map((pair) => pair[who]))];
  const rows = names.map((name) => [name, counted(pairs.filter((pair) => pair[who] === name))]);
  const weight = ([, counts]) => KINDS.reduce((sum, kind, at) => sum + counts[kind] * 100 ** (KINDS.length - at), 0);
  return rows.filter((row) => weight(row) > 0).sort((one, other) => weight(other) - weight(one) || (one[0] < other[0] ? -1 : 1));
}

const OPTIONS = {
  meeting: { type: 'string' },
  predator: { type: 'string' },
  prey: { type: 'string' },
  outcome: { type: 'string' },
  level: { type: 'string' },
  by: { type: 'string' },
  list: { type: 'boolean' },
  draw: { type: 'string' },
  seed: { type: 'string', default: '1' },
};

async function main() {
  const { values } = parseArgs({ options: OPTIONS });
  if (values.meeting !== undefined && MEETINGS[values.meeting] === undefined)
    throw new Error(`review: expected a meeting of ${Object.keys(MEETINGS).join(', ')}, received "${values.meeting}"`);
  if (values.by !== undefined && values.by !== 'predator' && values.by !== 'prey')
    throw new Error(`review: expected --by predator or --by prey, received "${values.by}"`);
  const lines = [];
  for (const meeting of values.meeting === undefined ? Object.keys(MEETINGS) : [values.meeting]) {
    const all = await reviewPairs(meeting);
    const pairs = all.filter(
      (pair) =>
        (values.predator === undefined || pair.predator === values.predator) &&
        (values.prey === undefined || pair.prey === values.prey) &&
        (values.outcome === undefined || pair.outcome === values.outcome) &&
        (values.level === undefined || pair.finding?.level === values.level),
    );
    if (values.list === true) {
      const told = values.outcome === undefined ? pairs.filter(({ finding }) => finding !== undefined) : pairs;
      lines.push(...(values.draw === undefined ? told : drawn(told, Number(values.draw), Number(values.seed))).map(line));
      continue;
    }
    const counts = counted(pairs);
    lines.push(`${meeting}: ${MEETINGS[meeting].says}`);
    lines.push(`  ${pairs.length} pairs, ${counts.inapplicable} not asked, ${counts.passed} passed`);
    for (const kind of KINDS) lines.push(`  ${kind.padEnd(16)} ${String(counts[kind]).padStart(5)}`);
    if (values.by !== undefined) lines.push(...table(values.by, byWhom(pairs, values.by)));
  }
  process.stdout.write(`${lines.join('\n')}\n`);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await main();

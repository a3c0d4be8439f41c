/** Which of 5,000 species may join a tank of 12: by what the tank comes to as a whole, against asking check of every pair, and of every tank with one more. */
import { candidatesFor, check, gape, libraryOf, rules, stockOf } from '@commensal/core';
import { records, standIns } from '@commensal/species-sample';
import { per, randomFrom } from './measure.mjs';
import { goalRow, heading, row, times } from './table.mjs';
import { situationOf } from './tanks.mjs';

const SPECIES = 5000;

/** So many species: those of the sample again and again, larger or smaller by up to a third. */
function manySpecies() {
  const random = randomFrom(5);
  const scaled = (figure, by) =>
    figure === undefined
      ? undefined
      : Object.fromEntries(Object.entries(figure).map(([key, value]) => [key, typeof value === 'number' ? value * by : value]));
  return Array.from({ length: SPECIES }, (_, index) => {
    const record = records[index % records.length];
    const by = Math.exp((random() - 0.5) * 0.6);
    return {
      ...record,
      id: `${record.id}-${index}`,
      ...(record.size === undefined
        ? {}
        : {
            size: {
              ...record.size,
              entry: scaled(record.size.entry, by),
              captiveAdult: scaled(record.size.captiveAdult, by),
              maximum: scaled(record.size.maximum, by),
            },
          }),
      ...(record.growth?.asymptoticLength === undefined
        ? {}
        : { growth: { ...record.growth, asymptoticLength: scaled(record.growth.asymptoticLength, by) } }),
    };
  }).map((record) => JSON.parse(JSON.stringify(record)));
}

const seconds = (run) => {
  const from = performance.now();
  const result = run();
  return { result, time: (performance.now() - from) / 1000 };
};

/** Returns whether all ways agree. */
export function benchCandidates() {
  heading(`Which of ${SPECIES.toLocaleString('en')} species may join a tank of 12`);
  const library = libraryOf(manySpecies(), standIns);
  const all = [...library.records.keys()];
  const full = situationOf(12, 11);
  const tank = {
    ...full,
    residents: [...full.residents, ...full.introductions.flatMap(({ animals }) => animals)].map((animal) => ({
      ...animal,
      species: `${animal.species}-${records.findIndex(({ id }) => id === animal.species)}`,
      enteredOn: '2026-12-01',
    })),
    introductions: [],
  };
  const { stock } = stockOf(tank, library);
  const counts = new Map(candidatesFor(tank, library).map(({ species, count }) => [species, count]));
  const withNewcomer = (species, residents) =>
    stockOf(
      { ...tank, residents, introductions: [{ date: tank.date, animals: [{ id: 'newcomer', species, count: counts.get(species) }] }] },
      library,
    ).stock;
  const hasError = (of, asked) =>
    check(of, asked).findings.some(
      ({ level, outcome, subjects }) => level === 'error' && outcome === 'failed' && subjects.some(({ id }) => id === 'newcomer'),
    );
  let agrees = true;
  for (const [name, asked, goal] of [
    ['swallowing', [gape], 15],
    ['all rules', rules, undefined],
  ]) {
    const scan = () =>
      candidatesFor(tank, library, { rules: asked, asks: 'whether' })
        .filter(({ mayJoin }) => mayJoin)
        .map(({ species }) => species);
    const byPairs = () => all.filter((species) => !tank.residents.some((resident) => hasError(withNewcomer(species, [resident]), asked)));
    const whole = () => all.filter((species) => !hasError(withNewcomer(species, tank.residents), asked));
    scan();
    const quick = seconds(scan);
    const pairs = seconds(byPairs);
    const tanks = seconds(whole);
    agrees &&= quick.result.join() === tanks.result.join() && (asked !== rules ? quick.result.join() === pairs.result.join() : true);
    row(`${name}: a species, ${quick.result.length} of ${all.length} may join`, per(quick.time, all.length));
    if (goal === undefined) row(`${name}: check of the tank with each, over the scan`, times(tanks.time / quick.time));
    else goalRow(`${name}: check pair by pair, over the scan`, pairs.time / quick.time, { atLeast: goal, show: times });
    if (asked !== rules) row(`${name}: check of the tank with each, over the scan`, times(tanks.time / quick.time));
    else row(`${name}: check pair by pair, over the scan (rules on the group do not see the group)`, times(pairs.time / quick.time));
  }
  if (stock.animals.length !== 12) throw new Error('benchCandidates: expected a tank of 12');
  if (!agrees) console.log('  THE WAYS DISAGREE');
  return agrees;
}

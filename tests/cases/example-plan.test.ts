import { readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { applyChange, check, isError, libraryOf, plan, rules, stockOf } from '@commensal/core';
import type { Introduction, Situation } from '@commensal/schema';
import { records, standIns } from '@commensal/species-sample';
import { describe, expect, it } from 'vitest';
import { havingToBeIn } from '../support/having-to-be-in.js';
import { root } from '../support/repository.js';

const library = libraryOf(records, standIns);
const folder = path.join(root, 'examples');
const examples = readdirSync(folder)
  .filter((name) => name.endsWith('.situation.json'))
  .map((name): [string, Situation] => [name, JSON.parse(readFileSync(path.join(folder, name), 'utf8'))]);

it('there is an example', () => {
  expect(examples.length).toBeGreaterThan(0);
});

describe.each(examples)('the plan of %s', (_, situation) => {
  const planned = plan(situation, library);
  it('is proven, and its introductions hold no error that a newcomer is part of', () => {
    expect(planned).toMatchObject({ proven: true, gap: 0, equals: { all: true } });
    const introductions = planned.introductions.map(({ date, animals }) => ({ date, animals })) as unknown as Introduction[];
    const { findings } = check(stockOf({ ...situation, introductions }, library).stock, rules);
    const newcomers = new Set(planned.introductions.flatMap(({ animals }) => animals.map(({ id }) => id)));
    expect(findings.filter((finding) => isError(finding) && finding.subjects.some(({ id }) => newcomers.has(id)))).toEqual([]);
  });

  it('says why each wish is left out, and what would let it in', () => {
    expect(planned.leftOut.length).toBeGreaterThan(0);
    for (const { because } of planned.leftOut) expect(because).not.toEqual([]);
    const helped = planned.leftOut.filter(({ wouldNeed, wouldNeedTogether }) => wouldNeed.length + wouldNeedTogether.length > 0);
    expect(helped.length).toBeGreaterThanOrEqual(planned.leftOut.length - 1);
  });

  it.each(planned.leftOut.map((left) => [left.species, left] as const))('%s comes in once what is said is done', (species, left) => {
    const { count, wouldNeed, wouldNeedTogether } = left;
    for (const changes of [...wouldNeed.map((change) => [change]), wouldNeedTogether]) {
      if (changes.length === 0) continue;
      const replaced = changes.flatMap((change) => (change.kind === 'instead-of' ? change.species : []));
      const kept = planned.chosen.filter((one) => !replaced.includes(one.species));
      const again = plan(changes.reduce(applyChange, havingToBeIn(situation, [...kept, { species, count }])), library);
      expect(again.impossible, JSON.stringify(changes)).toBeUndefined();
      expect(again.chosen.map((one) => one.species)).toContain(species);
      // Of changes that only help together none can be spared.
      if (changes.length < 2) continue;
      for (const spared of changes) {
        const fewer = changes.filter((change) => change !== spared);
        const still = fewer.flatMap((change) => (change.kind === 'instead-of' ? change.species : []));
        const others = planned.chosen.filter((one) => !still.includes(one.species));
        expect(
          plan(fewer.reduce(applyChange, havingToBeIn(situation, [...others, { species, count }])), library).impossible,
          spared.kind,
        ).toBeDefined();
      }
    }
  });
});

import { readFileSync } from 'node:fs';
import { applyChange, check, plan, rules, stockOf } from '@commensal/core';
import { it } from 'vitest';
import { groundOf, findingsWith, excludingRules } from '../../packages/core/src/plan/ground.js';
import { newcomerFrom } from '../../packages/core/src/plan/line.js';
import { arrange } from '../../packages/core/src/plan/arrange.js';
import { fittingIn } from '../../packages/core/src/plan/fits.js';
import { libraryFor } from '../support/arbitraries.js';
it('x', () => {
    const [scene] = JSON.parse(readFileSync(`/tmp/ce1.json`, 'utf8'));
    const library = libraryFor(scene);
    const g = groundOf(applyChange(scene.situation, { kind: 'without-resident', animal: 'r0' }), library, rules, 'whether');
    const line = g.lines[0]!;
    console.log(line.id, line.lengthsCm, g.startDay - g.stock.day, g.stock.animals.map((a) => a.id + a.role + a.entryDay));
    const a = arrange(g, [{ line, count: 1 }]);
    console.log(a.excluding.map((f) => f.key), a.batches.map((b) => b.day - g.stock.day));
    console.log(fittingIn(g, []).fits([], { line, count: 1 }));
    console.log(findingsWith(g, [newcomerFrom({ line, count: 1 }, g.startDay, 2)], excludingRules(g)).map((f) => f.key));
});

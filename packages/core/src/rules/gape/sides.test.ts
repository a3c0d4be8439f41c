import fc from 'fast-check';
import { expect, it } from 'vitest';
import { libraryFor, scenes } from '../../../../../tests/support/arbitraries.js';
import { runs } from '../../../../../tests/support/runs.js';
import { DAYS_PER_YEAR } from '../../quantity/days.js';
import { stockOf } from '../../stock/stock-of.js';
import { everCrosses } from '../../biology/first-crossing.js';
import { optionsOf } from '../rule.js';
import { arrivalOf } from '../presence.js';
import { marginAtWorst } from './first-look.js';
import { gape } from './gape.js';
import { fullSizeMarginAtWorst, pairingOf } from './pairing.js';
import { neverFits, preyOf, sideOf, swallowerOf } from './sides.js';

it('prey that is out of reach for good is so on every day, at full size, and at its least favourable', () => {
  let spared = 0;
  let asked = 0;
  fc.assert(
    fc.property(scenes(), (scene) => {
      const { stock } = stockOf(scene.situation, libraryFor(scene));
      const options = optionsOf(gape, stock);
      const lastDay = Math.max(stock.horizonDay, ...stock.animals.map((animal) => arrivalOf(stock, animal)));
      for (const one of stock.animals) {
        for (const other of stock.animals) {
          if (one === other || one.kind.gapeClass === 'notGapeLimited') continue;
          const swallower = swallowerOf(sideOf(one), lastDay, options);
          const body = preyOf(sideOf(other), arrivalOf(stock, other));
          asked += 1;
          if (!neverFits(swallower, body)) continue;
          spared += 1;
          const from = Math.max(arrivalOf(stock, one), arrivalOf(stock, other));
          const pairing = pairingOf(swallower, body, from);
          if (pairing === undefined) throw new Error('a pair of which something is not known was passed over');
          const years = (lastDay - from) / DAYS_PER_YEAR + options.lookBeyondYears;
          expect(everCrosses({ ...pairing.predator, asymptoticCm: pairing.predatorFullCm }, pairing.prey, pairing.ratio, years)).toBe(
            false,
          );
          expect(pairing.predatorFullCm).toBeLessThan(pairing.ratio * pairing.preyFullCm);
          expect(fullSizeMarginAtWorst(pairing, one, other)).toBeLessThan(0);
          for (let day = from; day <= lastDay; day += 50)
            expect(marginAtWorst(pairing, swallower.lengthOn(day), body.lengthOn(day))).toBeLessThan(0);
        }
      }
    }),
    { numRuns: runs(300) },
  );
  // It has to spare some, and not all.
  expect(spared).toBeGreaterThan(asked / 20);
  expect(spared).toBeLessThan(asked);
});

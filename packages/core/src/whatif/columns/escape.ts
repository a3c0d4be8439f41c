import { arrivalOf } from '../../rules/presence.js';
import { isThroughGap, judgeTop, measureTop } from '../../rules/escape/over-the-top.js';
import { judgePumps, measurePumps } from '../../rules/escape/pumps.js';
import type { BandColumns } from './columns.js';
import { CLOSE, type Kernel, LEFT, NOTHING_RANK, PASSED_RANK, rankOfVerdict } from './kernel.js';
import type { Shared } from './kernels.js';
import { need, needEnds, placesToNeed } from './places.js';

const FAILED = rankOfVerdict({ outcome: 'failed', level: 'warning' });
const DOUBT = rankOfVerdict({ outcome: 'cantTell', level: 'warning' });

const OVER = 1 + CLOSE;
const UNDER = 1 - CLOSE;

/** `escape` from columns: numbers matter for what jumps under a cover with a gap, all else is judged once. */
export function escapeKernel({ columns, places }: Shared): Kernel {
  const { stock, ofAnimals, ofTank } = columns;
  let constant = NOTHING_RANK;
  const jumping: number[] = [];
  measureTop(stock, (measure) => {
    const { animal, depthCm } = measure;
    if (isThroughGap(measure) && depthCm !== undefined)
      jumping.push(places.placeOf(stock.animals.indexOf(animal), arrivalOf(stock, animal)));
    else constant = Math.max(constant, rankOfVerdict(judgeTop(measure)));
  });
  measurePumps(stock, (measure) => {
    constant = Math.max(constant, rankOfVerdict(judgePumps(measure)));
  });
  // Nothing is graver.
  if (constant === FAILED || jumping.length === 0) return () => constant;
  const least = Math.max(constant, PASSED_RANK);
  const jumpers = Int32Array.from(jumping);
  const needed = placesToNeed(places, jumping);
  const [depth, length, gap] = [ofAnimals('depth'), ofAnimals('length'), ofTank('gap')];

  return () => {
    needEnds(places);
    need(places, needed);
    const { lengths, animalAt } = places;
    const gapCm = gap.centre[0] as number;
    let rank = least;
    for (let turn = 0; turn < jumpers.length; turn += 1) {
      const place = jumpers[turn] as number;
      const at = animalAt[place] as number;
      const room = gapCm / ((depth.centre[at] as number) * (lengths[place] as number));
      if (room > OVER) {
        // What settles it here may well do so in the next scenario.
        jumpers[turn] = jumpers[0] as number;
        jumpers[0] = place;
        return FAILED;
      }
      if (!(room < UNDER)) return LEFT;
      if (rank >= DOUBT) continue;
      const ofDepth = Math.log(downOf(depth, at));
      const ofLength = Math.log(downOf(length, at));
      const ofGap = Math.log((gap.high[0] as number) / gapCm);
      const doubt = Math.log(room) + Math.sqrt(ofDepth * ofDepth + ofLength * ofLength + ofGap * ofGap);
      if (doubt > CLOSE) rank = DOUBT;
      else if (!(doubt < -CLOSE)) return LEFT;
    }
    return rank;
  };
}

const downOf = ({ low, centre }: BandColumns, at: number): number => (centre[at] as number) / (low[at] as number);

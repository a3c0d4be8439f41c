import { type RoomInLengths, swimmingNeed, swimmingShare } from '../../biology/swimming-need.js';
import { judgeRoom, maySwim, ROOM_UNKNOWN, roomIn, type SwimmingRoomOptions } from '../../rules/swimming-room.js';
import type { Columns } from './columns.js';
import { CLOSE, INAPPLICABLE_RANK, type Kernel, NOTHING_RANK, PASSED_RANK, rankOfVerdict } from './kernel.js';
import type { Shared } from './kernels.js';
import { listsOf } from './lists.js';

/**
 * `swimming-room` from columns. What it comes to hangs on the least share that any animal has, and shares fall as adults get longer, to the last digit: of those that want
 * the same room only the longest is looked at, and nothing is left to the rule.
 */
export function swimmingRoomKernel({ columns }: Shared, options: SwimmingRoomOptions): Kernel {
  const { ofAnimals, ofTank } = columns;
  const [adult, long, wide, water] = [ofAnimals('adult'), ofTank('long'), ofTank('wide'), ofTank('water')];
  const { constant, swimmers } = swimmersIn(columns, options);
  if (swimmers.length === 0) return () => constant;
  const { errorShare } = options;
  const roomy = Math.max(constant, PASSED_RANK);
  const worst = rankOfVerdict(judgeRoom(0, 0, errorShare));
  const rooms = swimmers.map(({ room }) => room);
  /** What one of 1 cm wants: lengths grow with the animal, water with its cube. */
  const perCm = rooms.map((room) => swimmingNeed(1, room));
  const alongPerCm = Float64Array.from(perCm, ({ lengthCm }) => lengthCm);
  const acrossPerCm = Float64Array.from(perCm, ({ widthCm }) => widthCm);
  const waterPerCube = Float64Array.from(perCm, ({ waterL }) => waterL);
  const longest = Float64Array.from(swimmers, (one) => one.longest);
  const longestAtMost = Float64Array.from(swimmers, (one) => one.longestAtMost);
  const varying = listsOf(swimmers.map((one) => one.varying));
  const order = Int32Array.from(swimmers, (_, at) => at);
  /** Shares that are clearly enough, and clearly so small that nothing is worse. */
  const ample = 1 + CLOSE;
  const scarce = Math.min(1, errorShare) * (1 - CLOSE) - CLOSE;

  // The engine works with plain numbers within one function only, so that nothing is called but where products do not tell.
  return () => {
    const longCm = long.centre[0] as number;
    const wideCm = wide.centre[0] as number;
    const litres = water.centre[0] as number;
    const longLow = long.low[0] as number;
    const wideLow = wide.low[0] as number;
    const litresLow = water.low[0] as number;
    let share = Number.POSITIVE_INFINITY;
    let shareAtWorst = Number.POSITIVE_INFINITY;
    let isAmple = true;
    for (let turn = 0; turn < order.length; turn += 1) {
      const index = order[turn] as number;
      let adultCm = longest[index] as number;
      let adultAtMost = longestAtMost[index] as number;
      const end = varying.from[index + 1] as number;
      for (let place = varying.from[index] as number; place < end; place += 1) {
        const at = varying.members[place] as number;
        adultCm = Math.max(adultCm, adult.centre[at] as number);
        adultAtMost = Math.max(adultAtMost, adult.high[at] as number);
      }
      const along = alongPerCm[index] as number;
      const across = acrossPerCm[index] as number;
      const volume = waterPerCube[index] as number;
      const scarceCm = scarce * adultCm;
      if (longCm < along * scarceCm || wideCm < across * scarceCm || litres < volume * scarceCm * adultCm * adultCm) {
        // What settles it here may well do so in the next scenario.
        order[turn] = order[0] as number;
        order[0] = index;
        return worst;
      }
      const ampleCm = ample * adultCm;
      const ampleAtMost = ample * adultAtMost;
      if (
        longLow >= along * ampleAtMost &&
        wideLow >= across * ampleAtMost &&
        litresLow >= volume * ampleAtMost * adultAtMost * adultAtMost &&
        longCm >= along * ampleCm &&
        wideCm >= across * ampleCm &&
        litres >= volume * ampleCm * adultCm * adultCm
      )
        continue;
      isAmple = false;
      const room = rooms[index] as RoomInLengths;
      share = Math.min(share, swimmingShare(longCm, wideCm, litres, adultCm, room));
      shareAtWorst = Math.min(shareAtWorst, swimmingShare(longLow, wideLow, litresLow, adultAtMost, room));
    }
    return isAmple ? roomy : Math.max(constant, rankOfVerdict(judgeRoom(share, shareAtWorst, errorShare)));
  };
}

/** Animals that want the same room for each of their lengths. */
interface Swimmers {
  readonly room: RoomInLengths;
  /** Places among the animals, one of each kind whose adult length varies. */
  readonly varying: number[];
  /** The longest of those whose adult length does not vary, at the centre and at the upper end. */
  longest: number;
  longestAtMost: number;
}

/** Those of whom all is known, by the room that they want, and what the rule comes to of all others. */
function swimmersIn({ stock, isFixed }: Columns, options: SwimmingRoomOptions): { constant: number; swimmers: readonly Swimmers[] } {
  const { lengthCm, widthCm } = stock.tank;
  const swimmers: Swimmers[] = [];
  let constant = NOTHING_RANK;
  stock.animals.forEach(({ kind }, at) => {
    const { adultCm, record } = kind;
    const activity = record.needs?.activity?.value;
    if (!maySwim(kind)) constant = Math.max(constant, INAPPLICABLE_RANK);
    else if (activity === undefined || adultCm === undefined || lengthCm === undefined || widthCm === undefined)
      constant = Math.max(constant, rankOfVerdict(ROOM_UNKNOWN));
    else {
      const some = swimmersFor(swimmers, roomIn(activity, options));
      if (!isFixed(adultCm)) {
        if (!some.varying.some((known) => stock.animals[known]?.kind === kind)) some.varying.push(at);
      } else {
        some.longest = Math.max(some.longest, adultCm.centre);
        some.longestAtMost = Math.max(some.longestAtMost, adultCm.high);
      }
    }
  });
  return { constant, swimmers };
}

function swimmersFor(swimmers: Swimmers[], room: RoomInLengths): Swimmers {
  const there = swimmers.find((one) => one.room.length === room.length && one.room.height === room.height);
  if (there !== undefined) return there;
  const added: Swimmers = { room, varying: [], longest: 0, longestAtMost: 0 };
  swimmers.push(added);
  return added;
}

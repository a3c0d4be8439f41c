import { likeness, mayLiveAlike } from '../../biology/likeness.js';
import { sharesClaim } from '../../rules/companions.js';
import { type RockCrowdingOptions, weighsOn } from '../../rules/rock-crowding.js';
import type { Stock, StockKind } from '../../stock/stock.js';
import { type Lists, listsOf } from './lists.js';
import type { Places } from './places.js';

/** Kinds with a claim on the rock, and what weighs on whom. Kinds are counted over those whose claim is known, claimants over all that make one. */
export interface Claimants {
  readonly many: number;
  /** Something that weighs on one of them is not known. */
  readonly lacks: boolean;
  /** Whether anything weighs on one of them for certain. */
  readonly isWeighedOn: boolean;
  /** By kind the places of its animals at the horizon, and by place in that list how many an animal counts for. */
  readonly places: Lists;
  readonly counts: Float64Array;
  /** By kind one of its animals, and whether they hold one claim together. */
  readonly first: Int32Array;
  readonly isShared: Uint8Array;
  /** By claimant the kinds that weigh on it, from `certainUntil` on those that do so if they live the same way; by place in that list how much. */
  readonly weighing: Lists;
  readonly weights: Float64Array;
  readonly certainUntil: Int32Array;
  /** Whether the claim of any kind varies. */
  readonly vary: boolean;
}

interface Kind {
  readonly kind: StockKind;
  readonly animals: number[];
}

interface Weighing {
  readonly by: number;
  readonly weight: number;
}

/** Those that are there at the horizon, as `rock-crowding` weighs them. Counts and words do not vary. */
export function claimantsIn({ columns: { stock, isFixed }, endOf }: Places, options: RockCrowdingOptions): Claimants {
  const claiming = kindsIn(stock).filter(({ kind: { rockClaimL } }) => rockClaimL?.centre !== 0);
  const known = claiming.filter(({ kind }) => kind.rockClaimL !== undefined);
  const unknown = claiming.filter(({ kind }) => kind.rockClaimL === undefined);
  const weightOf = ({ kind: one }: Kind, { kind: other }: Kind): { alike: number; maybe: number } => {
    const alike = likeness(one, other, options);
    return { alike, maybe: mayLiveAlike(one, other, alike) ? options.wayOfLiving : 0 };
  };
  const weighingOn = (one: Kind, how: 'alike' | 'maybe'): Weighing[] =>
    known.map((other, by) => ({ by, weight: weightOf(one, other)[how] })).filter(({ weight }) => weight > 0);
  const certain = claiming.map((one) => weighingOn(one, 'alike'));
  const all = claiming.map((one, row) => [...(certain[row] as Weighing[]), ...weighingOn(one, 'maybe')]);
  const weighing = listsOf(all.map((list) => list.map(({ by }) => by)));
  const countOf = (at: number): number => stock.animals[at]?.count as number;
  return {
    many: claiming.length,
    lacks: claiming.some((one) =>
      unknown.some((other) => {
        const { alike, maybe } = weightOf(one, other);
        return one === other || alike > 0 || maybe > 0;
      }),
    ),
    isWeighedOn: certain.some((list) => list.length > 0),
    places: listsOf(known.map(({ animals }) => animals.map((at) => endOf(at, stock.horizonDay)))),
    counts: Float64Array.from(known.flatMap(({ kind, animals }) => animals.map((at) => (sharesClaim(kind) ? 1 : countOf(at))))),
    first: Int32Array.from(known, ({ animals: [first] }) => first as number),
    isShared: Uint8Array.from(known, ({ kind }) => (sharesClaim(kind) ? 1 : 0)),
    weighing,
    weights: Float64Array.from(all.flatMap((list) => list.map(({ weight }) => weight))),
    certainUntil: Int32Array.from(certain, (list, row) => (weighing.from[row] as number) + list.length),
    vary: known.some(({ kind }) => !isFixed(kind.rockClaimL)),
  };
}

/** The kinds of the animals that stay, by id, with their places among the animals. */
function kindsIn(stock: Stock): readonly Kind[] {
  const kinds = new Map<string, Kind>();
  stock.animals.forEach((animal, at) => {
    if (!weighsOn(stock, animal)) return;
    const there = kinds.get(animal.kind.id);
    if (there === undefined) kinds.set(animal.kind.id, { kind: animal.kind, animals: [at] });
    else there.animals.push(at);
  });
  return [...kinds.values()];
}

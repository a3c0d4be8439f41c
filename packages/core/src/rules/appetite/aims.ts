import type { Basis, SpeciesRecord } from '@commensal/schema';
import type { StockKind } from '../../stock/stock.js';

type Harm = NonNullable<NonNullable<SpeciesRecord['conduct']>['harms']>[number];
type Target = Harm['what'][number];
type Food = NonNullable<NonNullable<SpeciesRecord['feeding']>['eats']>['foods'][number];

/** What is kept besides the animals of the list and can be harmed. */
export type Kept = Extract<Target, 'stony-corals' | 'soft-corals' | 'clams' | 'sponges'>;
export const KEPT: readonly Kept[] = ['stony-corals', 'soft-corals', 'clams', 'sponges'];

/** One way in which an animal goes for another, or for something kept. */
export interface Aim {
  /** Undefined where harm is only suspected. */
  readonly how: Harm['how'] | undefined;
  readonly harm: Harm['harm'];
  readonly often: Harm['often'];
  /** Only those up to this share of its own length; undefined where length does not matter. */
  readonly upToShare: number | undefined;
  /** Fields without which it cannot be told whether it does. */
  readonly missing: readonly string[];
  readonly missingOf: 'actor' | 'victim';
  readonly basis: Basis;
}

/** The forms that the words for targets stand for. */
const FORM_OF: Readonly<Record<Target, StockKind['form'] | 'kept'>> = {
  fishes: 'fish',
  'small-fishes': 'fish',
  'slow-fishes': 'fish',
  shrimps: 'shrimp',
  'small-shrimps': 'shrimp',
  crabs: 'crab',
  'hermit-crabs': 'hermit-crab',
  snails: 'snail',
  urchins: 'urchin',
  anemones: 'anemone',
  'stony-corals': 'kept',
  'soft-corals': 'kept',
  clams: 'kept',
  sponges: 'kept',
};

const isSmall = (target: Target): boolean => target === 'small-fishes' || target === 'small-shrimps';

const PACE: readonly string[] = ['feeding.pace'];
const NOTHING: readonly string[] = [];

/** Most animals leave most others alone. */
const NONE: readonly Aim[] = [];

/** What one animal does to another by its record, or may do; empty where it leaves it alone. */
export function aimsAt(actor: StockKind, victim: StockKind, smallShare: number): readonly Aim[] {
  const harms = actor.record.conduct?.harms;
  if (harms === undefined) return suspicionOf(actor, victim, smallShare);
  let aims: Aim[] | undefined;
  for (const deed of harms) {
    for (const target of deed.what) {
      if (FORM_OF[target] !== victim.form) continue;
      const pace = victim.record.feeding?.pace;
      if (target === 'slow-fishes' && pace !== undefined && pace.value !== 'slow') continue;
      const upToShare = deed.upToShare ?? (isSmall(target) ? smallShare : undefined);
      const missing = target === 'slow-fishes' && pace === undefined ? PACE : NOTHING;
      aims ??= [];
      aims.push({ how: deed.how, harm: deed.harm, often: deed.often, upToShare, missing, missingOf: 'victim', basis: deed.basis });
    }
  }
  return aims ?? NONE;
}

/** The same for something kept, whose size is not told: any counts as within reach. */
export function aimsAtKept(actor: StockKind, kept: Kept): readonly Aim[] {
  const harms = actor.record.conduct?.harms;
  if (harms === undefined) return eats(actor, FOOD_OF_KEPT[kept]) ? [suspected('kills', undefined)] : [];
  return harms
    .filter((deed) => deed.what.includes(kept))
    .map((deed) => ({
      how: deed.how,
      harm: deed.harm,
      often: deed.often,
      upToShare: undefined,
      missing: [],
      missingOf: 'actor',
      basis: deed.basis,
    }));
}

/*
 * Where a record is silent on harm the diet stands in, so that a gap neither passes in silence nor accuses every grazer:
 * whatever stands in the diet may be hurt, and where there is no diet either, everything may. Bodies that a mouth swallows
 * whole are judged by `gape`, so that of an animal that engulfs only those forms are in question that `gape` does not judge.
 */

const FOOD_OF: Readonly<Record<StockKind['form'], Food>> = {
  fish: 'fishes',
  shrimp: 'shrimps',
  crab: 'crabs',
  'hermit-crab': 'crabs',
  snail: 'snails',
  urchin: 'urchins',
  anemone: 'anemones',
};

const FOOD_OF_KEPT: Readonly<Record<Kept, Food>> = {
  'stony-corals': 'corals',
  'soft-corals': 'corals',
  clams: 'bivalves',
  sponges: 'sponges',
};

/** Anemones sting whatever touches them. */
const stings = (kind: StockKind): boolean => kind.form === 'anemone' || kind.record.feeding?.mode?.value === 'stinger';

const eats = (actor: StockKind, food: Food): boolean => {
  const foods = actor.record.feeding?.eats?.foods;
  return foods === undefined || foods.includes(food) || stings(actor);
};

/** Without a word on it a fish may or may not engulf; other animals do not swallow others whole. */
const swallowsWhole = (kind: StockKind): boolean =>
  kind.gapeClass === undefined ? kind.form === 'fish' : kind.gapeClass !== 'notGapeLimited';

const judgedByGape = (victim: StockKind): boolean => victim.form === 'fish' || victim.form === 'shrimp' || victim.form === 'crab';

function suspicionOf(actor: StockKind, victim: StockKind, smallShare: number): readonly Aim[] {
  const { feeding } = actor.record;
  const food = FOOD_OF[victim.form];
  const onlySmall = feeding?.eats?.small?.includes(food) === true;
  const bites = !(swallowsWhole(actor) && judgedByGape(victim)) && goesFor(actor, victim);
  // Cleaners pick at others too, and do them good.
  const scales = victim.form === 'fish' && feeding?.eats?.foods.includes('scales-and-mucus') === true && feeding.cleans?.value !== true;
  if (!bites && !scales) return NONE;
  return [
    ...(bites ? [suspected('kills', onlySmall && !stings(actor) ? smallShare : undefined)] : []),
    ...(scales ? [suspected('wounds', undefined)] : []),
  ];
}

/** For fishes what the record says of fish-eating goes before the list of foods. */
function goesFor(actor: StockKind, victim: StockKind): boolean {
  const fishEating = actor.record.feeding?.fishEating?.value;
  if (victim.form === 'fish' && fishEating !== undefined && !stings(actor)) return fishEating !== 'noneRecorded';
  return eats(actor, FOOD_OF[victim.form]);
}

const suspected = (harm: Harm['harm'], upToShare: number | undefined): Aim => ({
  how: undefined,
  harm,
  often: 'as-a-rule',
  upToShare,
  missing: ['conduct.harms'],
  missingOf: 'actor',
  basis: 'recalled',
});

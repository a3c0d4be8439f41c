import type { Acceptance, Basis, SpeciesRecord } from '@commensal/schema';
import type { SwallowLimit } from '../biology/swallow-limit.js';
import type { Band } from '../quantity/band.js';

/** The situation resolved against species records: plain numbers in fixed units. What rules read. */
export interface Stock {
  /** Day number of the situation. */
  readonly day: number;
  /** Last day looked at. */
  readonly horizonDay: number;
  readonly tank: StockTank;
  readonly keeper: StockKeeper;
  /** One row a line of the document: `count` alike animals. Residents first, then newcomers by day. */
  readonly animals: readonly StockAnimal[];
  readonly wishes: readonly StockWish[];
  readonly rockRelaidOn: readonly number[];
  readonly divided: readonly { readonly from: number; readonly until: number }[];
  readonly settings: StockSettings;
}

export interface StockTank {
  readonly waterL: Band;
  readonly lengthCm: Band | undefined;
  readonly widthCm: Band | undefined;
  readonly rockL: Band | undefined;
  readonly temperatureCel: Band | undefined;
  readonly salinity: Band | undefined;
  readonly acidity: Band | undefined;
  /** Day number; undefined where not told. */
  readonly cycledDay: number | undefined;
  readonly sandCm: Band | undefined;
  readonly sandGrain: 'fine' | 'coarse' | undefined;
  /** Shelters that can be counted; each undefined where not told. */
  readonly shelters: Readonly<Record<'caves' | 'holes' | 'burrows' | 'branches', number | undefined>>;
  readonly cover: 'open' | 'net' | 'lid' | undefined;
  /** Widest gap in the cover. */
  readonly gapCm: Band | undefined;
  readonly pumps: 'guarded' | 'unguarded' | undefined;
  readonly light: 'dim' | 'moderate' | 'strong' | undefined;
  readonly flow: 'gentle' | 'moderate' | 'strong' | undefined;
  readonly feedingsPerDay: number | undefined;
  /** Foods on offer; undefined where not told. */
  readonly foods: readonly string[] | undefined;
  readonly feedGPerDay: Band | undefined;
  readonly feedProtein: Band | undefined;
  readonly filterM2: Band | undefined;
  /** Measured turnover, grams of nitrogen a day. */
  readonly turnoverGPerDay: Band | undefined;
  readonly disease: { readonly lastSeen: number; readonly fishlessFrom?: number; readonly fishlessUntil?: number } | undefined;
  readonly copper: 'never' | 'removed' | 'present' | undefined;
  /** What is kept besides the animals of the list; undefined where not told. */
  readonly kept: readonly string[] | undefined;
  readonly holdingLots: number | undefined;
}

export interface StockKeeper {
  /** Undefined where the situation tells nothing of the keeper. */
  readonly careTier: number | undefined;
  readonly provisions: readonly string[];
}

export interface StockSettings {
  readonly thresholds: Readonly<Record<string, Readonly<Record<string, number>>>>;
  readonly off: readonly string[];
  readonly accepted: readonly Acceptance[];
  readonly whenUncertain: 'avoid' | 'allow' | 'exclude';
  readonly priorities: 'add-up' | 'strict';
  /** First day on which a plan lets anything go in; undefined where it is not told. */
  readonly notBefore: number | undefined;
}

/** A species as rules see it. Undefined means unknown. */
export interface StockKind {
  readonly id: string;
  readonly record: SpeciesRecord;
  readonly genus: string;
  readonly family: string;
  readonly kinGroup: string;
  readonly form: SpeciesRecord['form'];
  /** Length types are converted before this point: every length below is total length (diameter, shell height). */
  readonly totalPerStandard: Band | undefined;
  readonly asymptoticCm: Band | undefined;
  readonly ratePerYear: Band | undefined;
  /** Usual captive adult length, else the asymptotic length. For room and claims. */
  readonly adultCm: Band | undefined;
  readonly entryCm: Band | undefined;
  readonly gapeClass: 'engulfs' | 'distensible' | 'notGapeLimited' | undefined;
  /** Of bodies as they are: how far prey is squeezed is an option of the rule. */
  readonly swallow: SwallowLimit | undefined;
  /** Body depth over total length. */
  readonly depthPerTotal: Band | undefined;
  /** The same with spines raised or the body blown up, where the record says so. */
  readonly defendedPerTotal: Band | undefined;
  readonly rockClaimL: Band | undefined;
  readonly wayOfLiving: string | undefined;
  readonly pugnacity: Pugnacity | undefined;
  /** Ids of the species that it is taken for. */
  readonly resembles: readonly string[];
  readonly temperatureCel: Band | undefined;
  readonly temperatureLimitsCel: Band | undefined;
  readonly salinity: Band | undefined;
  readonly acidity: Band | undefined;
}

/** What is done to whom: 0 ignores, 1 displays, 2 chases, 3 bites, 4 kills; undefined where the record does not tell it apart. */
export interface Pugnacity {
  readonly ownKind: number;
  readonly genus: number;
  readonly kin: number;
  readonly others: number;
  readonly newcomers: number;
  readonly lookAlikes: number | undefined;
  readonly smaller: number | undefined;
  readonly maleToMale: number | undefined;
  readonly femaleToFemale: number | undefined;
  readonly maleToFemale: number | undefined;
  readonly basis: Basis;
}

export interface StockAnimal {
  readonly id: string;
  readonly name: string | undefined;
  readonly kind: StockKind;
  readonly count: number;
  readonly role: 'resident' | 'newcomer';
  readonly sex: 'female' | 'male' | undefined;
  readonly origin: 'captive-bred' | 'wild' | undefined;
  /** Day on which a newcomer is bought; undefined where not told. */
  readonly purchaseDay: number | undefined;
  /** Total length on `lengthDay`; undefined where neither told nor usual. */
  readonly lengthCm: Band | undefined;
  readonly lengthDay: number;
  /** Day it went or goes in; undefined for residents whose day is not told. */
  readonly entryDay: number | undefined;
  /** First day on which it is gone; Infinity while it stays. */
  readonly leaveDay: number;
}

/** A wish, with the numbers that do and the length at which it may come in. */
export interface StockWish {
  readonly kind: StockKind;
  readonly least: number;
  readonly most: number;
  readonly priority: number;
  /** It has to be among what goes in. */
  readonly must: boolean;
  readonly origin: 'captive-bred' | 'wild' | undefined;
  readonly entryCm: Band | undefined;
}

/** First and last day (from the day of the situation to the horizon) on which both are in the tank; undefined when never. */
export function daysTogether(stock: Stock, one: StockAnimal, other: StockAnimal): { from: number; until: number } | undefined {
  const from = Math.max(stock.day, one.entryDay ?? stock.day, other.entryDay ?? stock.day);
  const until = Math.min(stock.horizonDay, one.leaveDay - 1, other.leaveDay - 1);
  return until >= from ? { from, until } : undefined;
}

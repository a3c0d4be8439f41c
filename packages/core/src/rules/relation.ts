import type { Basis } from '@commensal/schema';
import type { StockAnimal, StockKind } from '../stock/stock.js';

/** Whom an animal takes another for; the words stand in the catalogues. */
export type Toward =
  | 'its-own-kind'
  | 'other-males-of-its-kind'
  | 'other-females-of-its-kind'
  | 'the-other-sex-of-its-kind'
  | 'others-of-its-genus'
  | 'its-kin'
  | 'animals-that-look-like-it'
  | 'smaller-fishes'
  | 'newcomers'
  | 'other-animals';

/** Relations for which an animal looks out: not whoever happens to be near, but rivals. */
export const isKinship = (toward: Toward): boolean => toward !== 'smaller-fishes' && toward !== 'newcomers' && toward !== 'other-animals';

/** What one animal does to another: 0 ignores, 1 displays, 2 chases, 3 bites, 4 kills. */
export interface Treatment {
  /** Undefined where the record does not tell. */
  readonly step: number | undefined;
  /** The most it may come to, where something is not known; else the step itself. */
  readonly atMost: number;
  readonly toward: Toward;
  readonly basis: Basis;
}

/** How the two stand to each other besides their species; undefined where it is not known. */
export interface Standing {
  /** The other is much smaller. */
  readonly smaller: boolean | undefined;
  /** The other comes into what this one already holds. */
  readonly newcomer: boolean;
}

/** What an animal may do at most of which nothing is on record. */
const ANYTHING = 4;

/** What one animal does to another: of all the relations that apply, the one that is treated worst. */
export function treatmentOf(actor: StockAnimal, target: StockAnimal, { smaller, newcomer }: Standing): Treatment {
  const pugnacity = actor.kind.pugnacity;
  if (pugnacity === undefined) return { step: undefined, atMost: ANYTHING, toward: closest(actor.kind, target.kind), basis: 'recalled' };
  let step = -1;
  let toward: Toward = 'other-animals';
  // Compared one by one, without a helper that would be made anew for each of the many pairs.
  const sameKind = actor.kind.id === target.kind.id;
  if (sameKind) {
    [toward, step] = bySex(actor, target) ?? ['its-own-kind', pugnacity.ownKind];
  } else {
    if (actor.kind.genus === target.kind.genus) {
      step = pugnacity.genus;
      toward = 'others-of-its-genus';
    }
    if (actor.kind.kinGroup === target.kind.kinGroup && pugnacity.kin > step) {
      step = pugnacity.kin;
      toward = 'its-kin';
    }
    if (pugnacity.lookAlikes !== undefined && pugnacity.lookAlikes > step && lookAlike(actor.kind, target.kind)) {
      step = pugnacity.lookAlikes;
      toward = 'animals-that-look-like-it';
    }
    // Others are those that nothing else names.
    if (step < 0) step = pugnacity.others;
  }
  if (newcomer && pugnacity.newcomers > step) {
    step = pugnacity.newcomers;
    toward = 'newcomers';
  }
  const canBeSmaller = !sameKind && target.kind.form === 'fish';
  if (canBeSmaller && smaller === true && pugnacity.smaller !== undefined && pugnacity.smaller > step) {
    step = pugnacity.smaller;
    toward = 'smaller-fishes';
  }
  const perhaps = canBeSmaller && smaller === undefined ? (pugnacity.smaller ?? 0) : 0;
  return { step, atMost: Math.max(step, perhaps), toward, basis: pugnacity.basis };
}

/** What the two are to each other by species alone. */
function closest(actor: StockKind, target: StockKind): Toward {
  if (actor.id === target.id) return 'its-own-kind';
  if (actor.genus === target.genus) return 'others-of-its-genus';
  if (actor.kinGroup === target.kinGroup) return 'its-kin';
  return lookAlike(actor, target) ? 'animals-that-look-like-it' : 'other-animals';
}

/** Where both sexes are known, and the record tells the sexes apart. */
export function bySex(actor: StockAnimal, target: StockAnimal): [Toward, number] | undefined {
  const pugnacity = actor.kind.pugnacity;
  if (pugnacity === undefined || actor.sex === undefined || target.sex === undefined) return undefined;
  const [toward, told]: [Toward, number | undefined] =
    actor.sex !== target.sex
      ? ['the-other-sex-of-its-kind', pugnacity.maleToFemale]
      : actor.sex === 'male'
        ? ['other-males-of-its-kind', pugnacity.maleToMale]
        : ['other-females-of-its-kind', pugnacity.femaleToFemale];
  return told === undefined ? undefined : [toward, told];
}

/** One is taken for the other, whichever record says so. */
const lookAlike = (one: StockKind, other: StockKind): boolean => names(one, other) || names(other, one);

const names = (one: StockKind, other: StockKind): boolean => one.resembles.includes(other.id);

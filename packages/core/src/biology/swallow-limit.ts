import type { Band } from '../quantity/band.js';
import { weakest } from '../quantity/basis.js';
import { logDown, logUp, together } from '../quantity/log-errors.js';

/** What is known of a mouth; each is a share of standard length. */
export interface Mouth {
  /** Greatest prey depth taken in trials. */
  readonly swallowTrial?: Band | undefined;
  /** Width of the open mouth. */
  readonly gapeWidth?: Band | undefined;
  /** Length of the lower jaw; says nothing where the snout is long. */
  readonly lowerJaw?: Band | undefined;
  /** Median gape of animals that feed alike. */
  readonly guildGape?: Band | undefined;
  /** Mean lower jaw of the genus or family. */
  readonly relativesJaw?: Band | undefined;
  readonly longSnout?: boolean | undefined;
  /** Plankton pickers open a mouth that is higher than wide; undefined where that is not known. */
  readonly picksPlankton?: boolean | undefined;
}

/** The rungs of the ladder, the surest first. */
export type SwallowRung = 'swallowTrial' | 'gapeWidth' | 'lowerJaw' | 'guildGape' | 'relativesJaw';

/** The deepest body that passes, over the standard length of the animal that swallows. */
export interface SwallowLimit extends Band {
  readonly rung: SwallowRung;
}

/**
 * Height of the open gape over lower jaw, the median over 17 reef fishes that stand in both data sets (1.18; Dunic & Baum 2017
 * and Price et al. 2022), rounded up. Never used on museum mouth widths, which are of closed mouths.
 */
export const GAPE_PER_JAW = 1.2;

/**
 * Width over height of the open gape of plankton pickers, as what has to pass lies across the mouth: 0.099 over 0.122, medians of
 * the guild (Dunic & Baum 2017). Fish-eaters (0.237 over 0.227) and invertebrate-eaters (0.160 over 0.162) open as wide as high.
 */
export const PLANKTIVORE_WIDTH_PER_HEIGHT = 0.81;

/** How far a gape computed from a jaw may be off, besides the jaw itself: the band of a derived figure. */
const FORMULA_SPREAD = 1.1;

/** How much further than the bare opening a squeezed body passes (Mihalitsis & Bellwood 2017: inner openings are exceeded). */
export const SQUEEZE = 1.25;

/**
 * Swallow limit over standard length, from the best that is known of the mouth: a swallow trial, the measured gape width,
 * 1.2 times the lower jaw, the median of the feeding guild, 1.2 times the jaw of relatives; less than 1.2 where the open mouth
 * is higher than wide. The upper end allows for bodies that are squeezed; undefined where nothing is known.
 *
 * @example
 * swallowLimit({ lowerJaw: { low: 0.19, centre: 0.2, high: 0.21, basis: 'measured' } })?.centre; // 0.24
 */
export function swallowLimit(mouth: Mouth, squeeze: number = SQUEEZE): SwallowLimit | undefined {
  if (mouth.swallowTrial !== undefined) return squeezed(mouth.swallowTrial, 'swallowTrial', squeeze);
  if (mouth.gapeWidth !== undefined) return squeezed(mouth.gapeWidth, 'gapeWidth', squeeze);
  if (mouth.lowerJaw !== undefined && mouth.longSnout !== true) return squeezed(gapeOfJaw(mouth.lowerJaw, mouth), 'lowerJaw', squeeze);
  if (mouth.guildGape !== undefined) return squeezed(mouth.guildGape, 'guildGape', squeeze);
  if (mouth.relativesJaw !== undefined && mouth.longSnout !== true)
    return squeezed(gapeOfJaw(mouth.relativesJaw, mouth), 'relativesJaw', squeeze);
  return undefined;
}

/** Width of the open gape from the jaw, with the error of the formula. */
function gapeOfJaw(jaw: Band, { picksPlankton }: Mouth): Band {
  const centre = jaw.centre * GAPE_PER_JAW * (picksPlankton === true ? PLANKTIVORE_WIDTH_PER_HEIGHT : 1);
  const formula = Math.log(FORMULA_SPREAD);
  return {
    low: centre / Math.exp(together(logDown(jaw), formula)),
    centre,
    high: centre * Math.exp(together(logUp(jaw), formula)),
    basis: weakest('derived', jaw.basis),
  };
}

function squeezed(source: Band, rung: SwallowRung, squeeze: number): SwallowLimit {
  return {
    low: source.low,
    centre: source.centre,
    high: source.centre * Math.exp(together(logUp(source), Math.log(squeeze))),
    basis: source.basis,
    rung,
  };
}

import type { Band } from '../quantity/band.js';
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
}

/** The rungs of the ladder, the surest first. */
export type SwallowRung = 'swallowTrial' | 'gapeWidth' | 'lowerJaw' | 'guildGape' | 'relativesJaw';

/** The deepest body that passes, over the standard length of the animal that swallows. */
export interface SwallowLimit extends Band {
  readonly rung: SwallowRung;
}

/**
 * Open gape over lower jaw, the median over 17 reef fishes that stand in both data sets (1.18; Dunic & Baum 2017 and
 * Price et al. 2022), rounded up. Never used on museum mouth widths, which are of closed mouths.
 */
export const GAPE_PER_JAW = 1.2;

/** How much further than the bare opening a squeezed body passes (Mihalitsis & Bellwood 2017: inner openings are exceeded). */
export const SQUEEZE = 1.25;

/**
 * Swallow limit over standard length, from the best that is known of the mouth: a swallow trial, the measured gape width,
 * 1.2 times the lower jaw, the median of the feeding guild, 1.2 times the jaw of relatives. The upper end allows for bodies
 * that are squeezed; undefined where nothing is known.
 *
 * @example
 * swallowLimit({ lowerJaw: { low: 0.19, centre: 0.2, high: 0.21, basis: 'measured' } })?.centre; // 0.24
 */
export function swallowLimit(mouth: Mouth, squeeze: number = SQUEEZE): SwallowLimit | undefined {
  if (mouth.swallowTrial !== undefined) return squeezed(mouth.swallowTrial, 1, 'swallowTrial', squeeze);
  if (mouth.gapeWidth !== undefined) return squeezed(mouth.gapeWidth, 1, 'gapeWidth', squeeze);
  if (mouth.lowerJaw !== undefined && mouth.longSnout !== true) return squeezed(mouth.lowerJaw, GAPE_PER_JAW, 'lowerJaw', squeeze);
  if (mouth.guildGape !== undefined) return squeezed(mouth.guildGape, 1, 'guildGape', squeeze);
  if (mouth.relativesJaw !== undefined && mouth.longSnout !== true)
    return squeezed(mouth.relativesJaw, GAPE_PER_JAW, 'relativesJaw', squeeze);
  return undefined;
}

function squeezed(source: Band, factor: number, rung: SwallowRung, squeeze: number): SwallowLimit {
  const centre = source.centre * factor;
  return {
    low: centre / Math.exp(logDown(source)),
    centre,
    high: centre * Math.exp(together(logUp(source), Math.log(squeeze))),
    basis: source.basis,
    rung,
  };
}

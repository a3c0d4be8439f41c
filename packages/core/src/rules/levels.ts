import type { Level } from '@commensal/schema';

/** From the least to the gravest. */
export const LEVELS: readonly Level[] = ['note', 'warning', 'error'];

/**
 * A level so many steps lower; never below note.
 *
 * @example
 * lower('error', 1); // 'warning'
 */
export const lower = (level: Level, steps: number): Level => LEVELS[Math.max(0, LEVELS.indexOf(level) - steps)] as Level;

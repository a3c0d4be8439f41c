import { describe, expect, it } from 'vitest';
import type { Asking } from './outputs.js';
import { rankOf, tallyOf } from './tally.js';

const [INAPPLICABLE, PASSED, CANT_TELL, FAILED] = [0, 1, 2, 3];
const [NOTE, WARNING, ERROR] = [0, 1, 2];

const outcome = (subjects: string[] = []): Asking => ({ what: 'outcome', column: 0, subjects, from: NOTE });
const first = (from: number): Asking => ({ what: 'first-failure', column: 0, subjects: [], from });

const written = (tally: ReturnType<typeof tallyOf>): number[] => {
  const into = new Float64Array(3).fill(-1);
  tally.write(into, 1);
  return [...into.slice(1)];
};

describe('a tally', () => {
  it('keeps the worst outcome and the gravest level of it', () => {
    const tally = tallyOf([outcome()]);
    tally.start();
    expect(written(tally)).toEqual([INAPPLICABLE, Number.NaN]);
    tally.add(rankOf(PASSED, NOTE));
    expect(written(tally)).toEqual([PASSED, Number.NaN]);
    tally.add(rankOf(CANT_TELL, ERROR));
    tally.add(rankOf(FAILED, NOTE));
    tally.add(rankOf(CANT_TELL, ERROR));
    expect(written(tally)).toEqual([FAILED, NOTE]);
    tally.add(rankOf(FAILED, WARNING));
    tally.add(rankOf(FAILED, NOTE));
    expect(written(tally)).toEqual([FAILED, WARNING]);
  });

  it('of named animals takes what names them, and counts the rest as nothing against them', () => {
    const tally = tallyOf([outcome(['pip'])]);
    tally.start();
    tally.add(rankOf(FAILED, ERROR), () => false);
    expect(written(tally)).toEqual([PASSED, Number.NaN]);
    tally.add(rankOf(CANT_TELL, WARNING), (ids) => ids.includes('pip'));
    expect(written(tally)).toEqual([CANT_TELL, WARNING]);
  });

  it('keeps the first day of failures from a level up; what has no day has none', () => {
    const tally = tallyOf([first(WARNING)]);
    tally.start();
    tally.add(rankOf(FAILED, NOTE), undefined, 3);
    tally.add(rankOf(CANT_TELL, ERROR), undefined, 4);
    tally.add(rankOf(FAILED, ERROR));
    expect(written(tally)[0]).toBeNaN();
    tally.add(rankOf(FAILED, ERROR), undefined, 20);
    tally.add(rankOf(FAILED, WARNING), undefined, 10);
    expect(written(tally)[0]).toBe(10);
  });

  it('starts again from what was kept', () => {
    const tally = tallyOf([outcome()]);
    tally.start();
    tally.add(rankOf(CANT_TELL, NOTE));
    tally.keep();
    tally.add(rankOf(FAILED, ERROR));
    tally.start();
    expect(written(tally)).toEqual([CANT_TELL, NOTE]);
  });

  it('is full when nothing graver can come, never while days are asked for', () => {
    const tally = tallyOf([outcome()], 'warning');
    tally.start();
    tally.add(rankOf(FAILED, NOTE));
    expect(tally.isFull()).toBe(false);
    tally.add(rankOf(FAILED, WARNING));
    expect(tally.isFull()).toBe(true);
    const days = tallyOf([outcome(), first(NOTE)]);
    days.start();
    days.add(rankOf(FAILED, ERROR), undefined, 0);
    expect(days.isFull()).toBe(false);
  });
});

import { describe, expect, it } from 'vitest';
import { type Suspicion, toldOnce } from './suspicion.js';

const at = (pointer: string, more: Omit<Suspicion, 'problem'> = {}): Suspicion => ({
  problem: { code: 'beyond-usual', pointer, found: 'it is', allowed: 'it must', fix: 'Do.' },
  ...more,
});
const told = (suspicions: readonly Suspicion[], before: readonly string[] = []): string[] =>
  toldOnce(suspicions, before).map(({ pointer }) => pointer);

describe('toldOnce', () => {
  it('leaves out what rests on a figure that an earlier one doubts', () => {
    expect(told([at('/a', { doubts: ['/a'] }), at('/b', { reads: ['/a'] }), at('/c')])).toEqual(['/a', '/c']);
  });

  it('doubts all that was read where nothing else is said', () => {
    expect(told([at('/a', { reads: ['/b'] }), at('/b')])).toEqual(['/a']);
    expect(told([at('/a', { reads: ['/b'], doubts: ['/a'] }), at('/b')])).toEqual(['/a', '/b']);
  });

  it('does not let what is left out mute others', () => {
    expect(told([at('/a'), at('/b', { reads: ['/a'] }), at('/b')])).toEqual(['/a', '/b']);
  });

  it('takes what was doubted before into account', () => {
    expect(told([at('/a'), at('/b')], ['/a'])).toEqual(['/b']);
  });
});

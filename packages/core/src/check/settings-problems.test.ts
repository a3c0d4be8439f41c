import { describe, expect, it } from 'vitest';
import { inventedSituation } from '../../tests/support/invented.js';
import { rules } from '../rules/index.js';
import { settingsProblems } from './settings-problems.js';

describe('settingsProblems', () => {
  it('has nothing to say of rules and thresholds there are', () => {
    const settings = { off: ['gape'], thresholds: { water: { slackCel: 1 }, 'entry-gap': { gapDays: 14 } } };
    expect(settingsProblems(inventedSituation({ settings }), rules)).toEqual([]);
    expect(settingsProblems(inventedSituation(), rules)).toEqual([]);
  });

  it('points at what there is not, and names what there is', () => {
    const settings = { off: ['gape', 'gaping'], thresholds: { water: { slack: 1 }, wine: { slackCel: 1 } } };
    const problems = settingsProblems(inventedSituation({ settings }), rules);
    expect(problems.map(({ code, pointer, found }) => [code, pointer, found])).toEqual([
      ['unknown-rule', '/settings/off/1', '"gaping"'],
      ['unknown-threshold', '/settings/thresholds/water/slack', '"slack"'],
      ['unknown-rule', '/settings/thresholds/wine', '"wine"'],
    ]);
    expect(problems[0]?.allowed).toContain('rock-crowding');
    expect(problems[1]?.allowed).toBe('slackCel');
  });

  it('looks at the rules it is given', () => {
    const settings = { off: ['gape'] };
    expect(settingsProblems(inventedSituation({ settings }), [])).toHaveLength(1);
  });
});

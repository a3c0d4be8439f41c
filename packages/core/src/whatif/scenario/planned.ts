import { dayOf } from '../../quantity/days.js';
import { planInSteps } from '../../plan/plan.js';
import type { AnyRule } from '../../rules/rule.js';
import type { Asked } from './outputs.js';
import type { Scenario } from './scenario-of.js';

/** What the plan for a scenario chooses. */
export function planPart({ situation, library }: Scenario, rules: readonly AnyRule[], asked: Asked, into: Float64Array, at: number): void {
  const { chosen, introductions, proven, worth } = planInSteps(situation, library, rules).choice;
  const countOf = (species?: string): number =>
    chosen.reduce((sum, one) => sum + (species === undefined || one.species === species ? one.count : 0), 0);
  const { bestSet } = asked;
  if (bestSet !== undefined) {
    const days = introductions.map(({ date }) => dayOf(date) - dayOf(situation.date));
    into[at + bestSet] = countOf();
    into[at + bestSet + 1] = worth.priority;
    into[at + bestSet + 2] = proven ? 1 : 0;
    into[at + bestSet + 3] = days.length === 0 ? Number.NaN : Math.max(...days);
  }
  asked.chosen?.species.forEach((species, index) => {
    into[at + (asked.chosen?.column ?? 0) + index] = countOf(species);
  });
}

/** Which block a scenario of a sensitivity design belongs to. */
export interface SaltelliPlace {
  /** 0 for A, 1 for B, 2 + i for A with variable i taken from B. */
  readonly block: number;
  readonly point: number;
}

/**
 * Scenario `at` of a design of `variables` variables for shares of variance: the `variables + 2` scenarios of one point stand side by side, A, B, and A with each
 * variable in turn taken from B (Saltelli et al. 2010, Computer Physics Communications 181: 259-270).
 *
 * @example
 * saltelliPlace(7, 3); // { block: 2, point: 1 }
 */
export const saltelliPlace = (at: number, variables: number): SaltelliPlace => ({
  block: at % (variables + 2),
  point: Math.floor(at / (variables + 2)),
});

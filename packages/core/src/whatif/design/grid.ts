/**
 * Which value each axis of a grid has at point `at`; the last axis turns fastest. Places go to `into`.
 */
export function gridPlaces(at: number, lengths: readonly number[], into: Float64Array): void {
  let rest = at;
  for (let axis = lengths.length - 1; axis >= 0; axis -= 1) {
    const length = lengths[axis] as number;
    into[axis] = rest % length;
    rest = Math.floor(rest / length);
  }
}

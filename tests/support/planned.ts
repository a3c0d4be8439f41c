import { plan, type Planned } from '@commensal/core';
import { libraryFor, type Scene } from './arbitraries.js';

/** So many plans are kept: as many as the laws of one file are tried on in `npm test`. */
const KEPT = 2000;

const plans = new Map<string, Planned>();

/** The plan of a scene. Laws that are tried on the same scenes share it, as a plan takes longer than all that is asked of it. */
export function planOf(scene: Scene): Planned {
  const key = JSON.stringify(scene);
  const known = plans.get(key);
  if (known !== undefined) return known;
  const planned = plan(scene.situation, libraryFor(scene));
  if (plans.size < KEPT) plans.set(key, planned);
  return planned;
}

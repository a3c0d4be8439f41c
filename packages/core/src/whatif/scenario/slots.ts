/** A place in mutable plain data that holds a number. */
export interface Slot {
  readonly holder: Record<string, unknown>;
  readonly key: string;
}

/** A place that varies: the keys that lead to it, and the numbers it held in two trials. */
export interface Varied extends Slot {
  readonly path: readonly string[];
  readonly one: number;
  readonly other: number;
}

/** A copy of plain data, objects that are shared staying shared. */
export function copyOf<Value>(value: Value, copies: Map<unknown, unknown> = new Map()): Value {
  if (typeof value !== 'object' || value === null) return value;
  const known = copies.get(value);
  if (known !== undefined) return known as Value;
  // Spread, not key by key: engines look up members of objects with many keys slowly that were added one by one.
  const copy = (Array.isArray(value) ? [...value] : { ...value }) as Record<string, unknown>;
  copies.set(value, copy);
  for (const [key, member] of Object.entries(value)) if (typeof member === 'object') copy[key] = copyOf(member, copies);
  return copy as Value;
}

/**
 * The places of `target` at which it and two trials of the same shape differ, each place of a shared object once. Undefined where they differ in more
 * than numbers: then writing numbers into places would not do.
 */
export function placesThatVary(target: object, one: object, other: object): Varied[] | undefined {
  const places: Varied[] = [];
  const seen = new Set<unknown>();
  const walk = (holder: object, a: object, b: object, path: readonly string[]): boolean => {
    if (seen.has(holder)) return true;
    seen.add(holder);
    const [into, left, right] = [holder, a, b] as Record<string, unknown>[] as [
      Record<string, unknown>,
      Record<string, unknown>,
      Record<string, unknown>,
    ];
    const keys = Object.keys(into);
    if (Object.keys(left).length !== keys.length || Object.keys(right).length !== keys.length) return false;
    return keys.every((key) => {
      const [here, x, y] = [into[key], left[key], right[key]];
      if (isObject(here) && isObject(x) && isObject(y)) return walk(here, x, y, [...path, key]);
      if (Object.is(here, x) && Object.is(here, y)) return true;
      if (typeof here !== 'number' || typeof x !== 'number' || typeof y !== 'number') return false;
      places.push({ holder: into, key, path: [...path, key], one: x, other: y });
      return true;
    });
  };
  return walk(target, one, other, []) ? places : undefined;
}

const isObject = (value: unknown): value is object => typeof value === 'object' && value !== null;

/** Runs something while the places tell when they are read, and says whether one was. Places that tell make objects slow: use a copy. */
export function isReadBy(slots: readonly Slot[], run: () => void): boolean {
  let isRead = false;
  const before = slots.map(({ holder, key }) => holder[key]);
  slots.forEach(({ holder, key }, index) => {
    Object.defineProperty(holder, key, {
      configurable: true,
      enumerable: true,
      get: () => {
        isRead = true;
        return before[index];
      },
    });
  });
  try {
    run();
  } finally {
    slots.forEach(({ holder, key }, index) => {
      Object.defineProperty(holder, key, { configurable: true, enumerable: true, writable: true, value: before[index] });
    });
  }
  return isRead;
}

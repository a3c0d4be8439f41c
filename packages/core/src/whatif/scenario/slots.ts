/** A place in a mutable copy of a stock that takes the value of a variable as it is. */
export interface Slot {
  readonly holder: Record<string, unknown>;
  readonly key: string;
}

/** A copy of plain data, objects that are shared staying shared. */
export function copyOf<Value>(value: Value, copies: Map<unknown, unknown> = new Map()): Value {
  if (typeof value !== 'object' || value === null) return value;
  const known = copies.get(value);
  if (known !== undefined) return known as Value;
  const copy: Record<string, unknown> | unknown[] = Array.isArray(value) ? [] : {};
  copies.set(value, copy);
  for (const [key, member] of Object.entries(value)) (copy as Record<string, unknown>)[key] = copyOf(member, copies);
  return copy as Value;
}

/**
 * The places of `target` at which two stocks differ, where each holds the number it was made with: those that take a variable's value as it is.
 * Undefined where they differ in any other way, so that writing into places would not do. `target` has the shape of both.
 */
export function slotsWhere(target: unknown, one: unknown, other: unknown, ofOne: number, ofOther: number): Slot[] | undefined {
  const slots: Slot[] = [];
  const seen = new Set<unknown>();
  const walk = (holder: unknown, a: unknown, b: unknown): boolean => {
    if (seen.has(holder)) return true;
    seen.add(holder);
    const [into, left, right] = [holder, a, b] as [Record<string, unknown>, Record<string, unknown>, Record<string, unknown>];
    const keys = Object.keys(into);
    if (Object.keys(left).length !== keys.length || Object.keys(right).length !== keys.length) return false;
    return keys.every((key) => {
      const [x, y, here] = [left[key], right[key], into[key]];
      if (isObject(x) && isObject(y) && isObject(here)) return walk(here, x, y);
      if (Object.is(x, y)) return true;
      if (x !== ofOne || y !== ofOther) return false;
      slots.push({ holder: into, key });
      return true;
    });
  };
  return walk(target, one, other) ? slots : undefined;
}

const isObject = (value: unknown): value is object => typeof value === 'object' && value !== null;

import type { KeyOrder } from '@commensal/schema';

type Members = Readonly<Record<string, unknown>>;

/**
 * A copy of an object with a member set: in its place where it is there already, else before the first that the schema has after it.
 * The other members keep their order.
 *
 * @example
 * placeMember({ low: 1, unit: 'cm' }, 'high', 2, { low: null, high: null, unit: null }); // { low: 1, high: 2, unit: 'cm' }
 */
export function placeMember(object: Members, key: string, value: unknown, order: KeyOrder): Members {
  if (Object.hasOwn(object, key)) return { ...object, [key]: value };
  const names = Object.keys(order);
  const rank = (name: string): number => (names.includes(name) ? names.indexOf(name) : names.length);
  const entries = Object.entries(object);
  const behind = entries.findIndex(([name]) => rank(name) > rank(key));
  const at = behind < 0 ? entries.length : behind;
  return Object.fromEntries([...entries.slice(0, at), [key, value], ...entries.slice(at)]);
}

/** A JSON value to be printed; plain values and names as they are to be written. */
export type Printed =
  | string
  | { readonly members: readonly { readonly name: string; readonly value: Printed }[] }
  | { readonly items: readonly Printed[] };

/**
 * The text of a value, spaced as `JSON.stringify(value, null, 2)` does it.
 *
 * @example
 * print({ items: ['1', '"a"'] }); // '[\n  1,\n  "a"\n]'
 */
export function print(value: Printed, indent = ''): string {
  if (typeof value === 'string') return value;
  const inner = `${indent}  `;
  const isList = 'items' in value;
  const lines = isList
    ? value.items.map((item) => inner + print(item, inner))
    : value.members.map(({ name, value: member }) => `${inner}${name}: ${print(member, inner)}`);
  const [open, close] = isList ? '[]' : '{}';
  return lines.length === 0 ? `${open}${close}` : `${open}\n${lines.join(',\n')}\n${indent}${close}`;
}

/**
 * Formats of Intl by what they are made with: making one takes far longer than using it, and a report uses few, many times.
 *
 * @example
 * const format = kept((language: string) => new Intl.NumberFormat(language));
 * format('en') === format('en'); // true
 */
export function kept<Args extends readonly unknown[], Format>(make: (...args: Args) => Format): (...args: Args) => Format {
  const made = new Map<string, Format>();
  return (...args) => {
    const key = JSON.stringify(args);
    const before = made.get(key);
    if (before !== undefined) return before;
    const format = make(...args);
    made.set(key, format);
    return format;
  };
}

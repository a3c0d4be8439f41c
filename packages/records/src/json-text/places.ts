/** A place in a text as editors count it: both from 1, columns in UTF-16 units. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

/**
 * Tells the line and the column of an offset in a text. Lines end with LF, CR LF or CR.
 *
 * @example
 * placesIn('ab\ncd')(4); // { line: 2, column: 2 }
 */
export function placesIn(text: string): (offset: number) => Place {
  const starts = [0];
  for (const { index, 0: end } of text.matchAll(/\r\n|\r|\n/g)) starts.push(index + end.length);
  return (offset) => {
    let low = 0;
    let high = starts.length;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if ((starts[middle] ?? 0) <= offset) low = middle;
      else high = middle;
    }
    return { line: low + 1, column: offset - (starts[low] ?? 0) + 1 };
  };
}

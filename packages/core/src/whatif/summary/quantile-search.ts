/**
 * Exact quantiles of numbers that are too many to keep: numbers in order are their bits in order, so that the k-th smallest is found digit by digit, in
 * five passes of counting (12 bits, then four times 13). Memory does not grow with the numbers.
 */
export const PASSES = 5;

const FLOAT = new Float64Array(1);
const WORDS = new Uint32Array(FLOAT.buffer);
/** Which word of a double holds its sign hangs on the machine. */
const HIGH = new Uint32Array(new Float64Array([-0]).buffer)[0] === 0 ? 1 : 0;

const BITS = 13;
const DIGITS = 8192;

/** A search in passes: `add` every number of a pass, then `next`; after {@link PASSES} passes `quantiles` has the answers. */
export interface QuantileSearch {
  readonly add: (value: number) => void;
  readonly next: () => void;
  /** As many as there are places; NaN where there were no numbers. */
  readonly quantiles: () => readonly number[];
}

/**
 * Quantiles at `places` from 0 to 1, with straight lines between neighbours (Hyndman & Fan 1996, American Statistician 50: 361-365, type 7). NaN is passed
 * over.
 */
export function quantileSearch(places: readonly number[]): QuantileSearch {
  let pass = 0;
  let count = 0;
  /** The k-th smallest numbers that are looked for: their digits as far as known, and their rank among those that share them. */
  let wanted: { prefix: number; rank: number }[] = [];
  let counts = new Map<number, Float64Array>([[0, new Float64Array(DIGITS)]]);
  const found: number[] = [];
  const ranks = (): number[] => {
    const all = new Set<number>();
    for (const place of places) {
      const at = place * (count - 1);
      all.add(Math.floor(at));
      all.add(Math.ceil(at));
    }
    return [...all].sort((one, other) => one - other);
  };
  return {
    add: (value) => {
      if (Number.isNaN(value)) return;
      const { prefix, digit } = digitsOf(value, pass);
      if (pass === 0) count += 1;
      const table = counts.get(prefix);
      if (table !== undefined) table[digit] = (table[digit] as number) + 1;
    },
    next: () => {
      if (pass === 0) wanted = count === 0 ? [] : ranks().map((rank) => ({ prefix: 0, rank }));
      wanted = wanted.map(({ prefix, rank }) => {
        const table = counts.get(prefix) as Float64Array;
        let before = 0;
        let digit = 0;
        while (before + (table[digit] as number) <= rank) {
          before += table[digit] as number;
          digit += 1;
        }
        // The last digit would go beyond what a number holds.
        if (pass === PASSES - 1) found.push(numberOf(prefix, digit));
        return { prefix: prefix * DIGITS + digit, rank: rank - before };
      });
      pass += 1;
      counts = new Map(wanted.map(({ prefix }) => [prefix, new Float64Array(DIGITS)]));
    },
    quantiles: () => {
      if (count === 0) return places.map(() => Number.NaN);
      const all = ranks();
      const at = (rank: number): number => found[all.indexOf(rank)] as number;
      return places.map((place) => {
        const position = place * (count - 1);
        const low = at(Math.floor(position));
        const high = at(Math.ceil(position));
        return low === high ? low : low + (position - Math.floor(position)) * (high - low);
      });
    },
  };
}

/** Bits that sort as their numbers do: of negative ones all turned, of others the sign alone. The digit of a pass, and all digits before it. */
function digitsOf(value: number, pass: number): { prefix: number; digit: number } {
  FLOAT[0] = value === 0 ? 0 : value;
  let high = WORDS[HIGH] as number;
  let low = WORDS[1 - HIGH] as number;
  if (high >>> 31 === 1) {
    high = ~high >>> 0;
    low = ~low >>> 0;
  } else high = (high | 0x80000000) >>> 0;
  // 12 + 13 + 7 bits of the one word, 6 + 13 + 13 of the other.
  const first = high >>> 20;
  const second = (high >>> 7) & 0x1fff;
  const third = ((high & 0x7f) << 6) | (low >>> 26);
  const fourth = (low >>> BITS) & 0x1fff;
  switch (pass) {
    case 0:
      return { prefix: 0, digit: first };
    case 1:
      return { prefix: first, digit: second };
    case 2:
      return { prefix: first * DIGITS + second, digit: third };
    case 3:
      return { prefix: (first * DIGITS + second) * DIGITS + third, digit: fourth };
    default:
      return { prefix: ((first * DIGITS + second) * DIGITS + third) * DIGITS + fourth, digit: low & 0x1fff };
  }
}

/** The number whose first four digits and last digit these are. */
function numberOf(digits: number, last: number): number {
  const fourth = digits % DIGITS;
  const upper = Math.floor(digits / DIGITS);
  const third = upper % DIGITS;
  const rest = Math.floor(upper / DIGITS);
  let high = ((Math.floor(rest / DIGITS) << 20) | ((rest % DIGITS) << 7) | (third >>> 6)) >>> 0;
  let low = (((third & 0x3f) << 26) | (fourth << BITS) | last) >>> 0;
  if (high >>> 31 === 1) high = (high & 0x7fffffff) >>> 0;
  else {
    high = ~high >>> 0;
    low = ~low >>> 0;
  }
  WORDS[HIGH] = high;
  WORDS[1 - HIGH] = low;
  return FLOAT[0] as number;
}

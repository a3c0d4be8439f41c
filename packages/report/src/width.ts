/** Printable signs of the scripts that are written with spaces: each takes one column. */
const PLAIN = /^[ -~\u00A0-\u00AC\u00AE-\u02FF\u0370-\u0482\u048A-\u052F\u2010-\u2027\u2030-\u205E\u20A0-\u20BF\u2200-\u22FF]*$/;

/** What joins signs, colours them or stands above them takes none. */
const JOINER = '\u200D';
const NONE = /^[\p{Mn}\p{Me}\p{Cc}\p{Cf}\p{Default_Ignorable_Code_Point}\p{Emoji_Modifier}]$/u;

/** A sign before this one is drawn as a picture. */
const AS_PICTURE = '\uFE0F';

const TWO = /^[\p{Script=Han}\p{Script=Hangul}\u3000-\u303E\u3041-\u33FF\uFF01-\uFF60\uFFE0-\uFFE6\p{Emoji_Presentation}]$/u;

/** Two of these make a flag. */
const HALF_A_FLAG = /^\p{Regional_Indicator}$/u;

/**
 * The columns that a text takes in type of one width.
 *
 * @example
 * widthOf('Tang 魚'); // 7
 */
export function widthOf(text: string): number {
  if (PLAIN.test(text)) return text.length;
  let columns = 0;
  let last = 0;
  let isJoined = false;
  for (const sign of text) {
    if (sign === AS_PICTURE && last === 1) {
      columns += 1;
      last = 2;
    } else if (!NONE.test(sign) && !isJoined) {
      last = TWO.test(sign) && !HALF_A_FLAG.test(sign) ? 2 : 1;
      columns += last;
    }
    isJoined = sign === JOINER;
  }
  return columns;
}

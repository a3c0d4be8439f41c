/** What each pattern of the schemas asks for, in words. A test holds the list against the schemas. */
const PATTERN_WORDS: Readonly<Record<string, string>> = {
  '^[a-z0-9]+(-[a-z0-9]+)*$': 'small letters a to z and digits, words joined by single hyphens, such as "amphiprion-ocellaris"',
  '^[a-z]+-[a-z]+(-[a-z]+)?$': 'genus and species in small letters joined by a hyphen, such as "amphiprion-ocellaris"',
  '^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$': 'a day as yyyy-mm-dd, such as "2027-03-01"',
  '^[0-9]{4}-(0[1-9]|1[0-2])$': 'a month as yyyy-mm, such as "2027-03"',
  '^[0-9]{4}\\.[0-9]+$': 'a data release as year, full stop and number, such as "2026.1"',
  '^[A-Z][a-z]+ [a-z]+( [a-z]+)?$': 'genus with a capital and species in small letters, such as "Amphiprion ocellaris"',
  '^[A-Z][a-z]+$': 'one word with a capital, such as "Pomacentridae"',
  '^urn:lsid:marinespecies\\.org:taxname:[0-9]+$': 'an identifier such as "urn:lsid:marinespecies.org:taxname:278400"',
  '^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$': 'a BCP 47 language tag, such as "en" or "pt-BR"',
  '^[A-Za-z0-9][A-Za-z0-9_-]*$': 'letters a to z, digits, hyphens and underscores, starting with a letter or digit, such as "pip"',
  '^[A-Za-z0-9][A-Za-z0-9_-]*(#[1-9][0-9]*)?$': 'the id of an animal, such as "pip", or of one of a group, such as "pip#2"',
  '^10\\.[0-9]{4,9}/\\S+$': 'a DOI without the address before it, such as "10.1000/182"',
  '^(/[^/]+)+$': 'a JSON Pointer, such as "/shape/bodyDepth"',
  '^[a-z][a-z0-9_]*$': 'small letters a to z, digits and underscores, starting with a letter, such as "pip_cm"',
  '^/(situation|species)/': 'a JSON Pointer into /situation or /species, such as "/situation/tank/water"',
  '^[0-9a-f]{64}$': 'a SHA-256 hash in 64 hexadecimal digits',
  '^https?://\\S+$': 'a web address that starts with http:// or https://',
};

/**
 * What a pattern asks for; the pattern itself where it has no words.
 *
 * @example
 * patternWords('^[0-9]{4}-(0[1-9]|1[0-2])$') // 'a month as yyyy-mm, such as "2027-03"'
 */
export function patternWords(pattern: string): string {
  return PATTERN_WORDS[pattern] ?? `text of the form ${pattern}`;
}

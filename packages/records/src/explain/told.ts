import { type References, sayWord, type Voice } from '@commensal/report';
import type { Pugnacity, SpeciesRecord } from '@commensal/schema';
import { entriesAt, fieldAt, type Grounded } from '../field-at.js';
import { type Clause, clause, inRow, sentence, share } from './prose.js';

/** What a record tells, put into sentences, a topic a function. */
interface Teller {
  readonly voice: Voice;
  readonly references: References;
  readonly record: SpeciesRecord;
  /** What the growth rate is taken from where the record has none; undefined where the tables have none of its relatives either. */
  readonly growthFrom: 'genus' | 'family' | undefined;
}

const withA = (noun: string): string => `${/^[aeiou]/.test(noun) ? 'an' : 'a'} ${noun}`;

const joined = (...sentences: readonly string[]): string => sentences.filter((text) => text !== '').join(' ');

/** Clauses of several fields, each worded with the value of its field. */
function clauses({ voice, record }: Teller, wordings: Readonly<Record<string, (value: string) => string>>): Clause[] {
  return Object.entries(wordings).flatMap(([field, wording]) => clause(voice, record, field, (said) => wording(said())));
}

const tell = ({ voice, references, record }: Teller, opening: string, all: readonly Clause[]): string =>
  sentence(voice, references, record, opening, all);

/** Whether a sentence can say `they` of what a list holds. */
const words = (voice: Voice, part: unknown): string =>
  inRow((Array.isArray(part) ? part : [part]).filter((word) => typeof word === 'string').map((word) => sayWord(voice, word)));

/** What it is, and what it is called. */
export function identity(teller: Teller): string {
  const { voice, record } = teller;
  const { taxon, form, vernacularNames, synonyms = [] } = record;
  const name = voice.names.speciesName(record.id);
  const subject =
    name === taxon.scientificName ? name : `${voice.names.isBare(record.id) ? name : `The ${name}`} (${taxon.scientificName})`;
  const english = vernacularNames.filter(({ language, name: one }) => language === 'en' && one !== name).map((one) => one.name);
  const foreign = vernacularNames.filter(({ language }) => language !== 'en').map(({ language, name: one }) => `${one} (${language})`);
  const also = [...english, ...foreign];
  return joined(
    `${subject} is ${withA(form.replace('-', ' '))} of the family ${taxon.family}${also.length === 0 ? '' : `, also called ${inRow(also)}`}.`,
    synonyms.length === 0 ? '' : `It has gone by the name ${inRow(synonyms)} as well.`,
    tell(teller, 'It', clauses(teller, { kinGroup: (value) => `counts as kin of the ${value}` })),
  );
}

/** How long it is, and how fast it grows. */
export function sizeAndGrowth(teller: Teller): string {
  return joined(
    tell(
      teller,
      'It',
      clauses(teller, {
        'size.maximum': (value) => `grows to ${value} at most`,
        'size.captiveAdult': (value) => `reaches ${value} in a tank`,
        'size.entry': (value) => `is sold at ${value}`,
      }),
    ),
    tell(
      teller,
      'It',
      clauses(teller, {
        'growth.asymptoticLength': (value) => `levels off at ${value}`,
        'growth.rate': (value) => `grows with a coefficient of ${value}`,
      }),
    ),
    entriesAt(teller.record, 'growth.asymptoticLength').length > 0 || teller.record.form !== 'fish'
      ? ''
      : 'Where its growth levels off is not on record: the greatest length stands in, by a formula.',
    entriesAt(teller.record, 'growth.rate').length > 0
      ? ''
      : `How fast it grows is not on record: ${teller.growthFrom === undefined ? 'the usual rate of reef fishes' : `its ${teller.growthFrom}`} stands in, which can be several times off.`,
  );
}

/** How deep and wide it is, and what its mouth takes. */
export function bodyAndMouth(teller: Teller): string {
  const { voice, record } = teller;
  const of = (field: string, name: string): Clause[] =>
    clause(voice, record, field, (_, { value, low, high, per = 'SL' }) => {
      const amount = value === undefined ? `${share(voice, low)} to ${share(voice, high)}` : share(voice, value);
      return `${name} ${amount} of ${per === 'SL' ? 'standard' : per === 'TL' ? 'total' : 'its'} length`;
    });
  return joined(
    tell(
      teller,
      'It',
      [
        ...of('shape.bodyDepth', 'has a body depth of'),
        ...of('shape.bodyWidth', 'a body width of'),
        ...of('shape.lowerJaw', 'a lower jaw of'),
        ...of('shape.gapeWidth', 'opens its mouth to a width of'),
        ...of('shape.swallowTrial', 'has swallowed, in trials, bodies as deep as'),
        ...of('shape.defendedDepth', 'offers, when it defends itself, a depth of'),
      ].map(withVerb),
    ),
    tell(
      teller,
      'It',
      clauses(teller, {
        'shape.gapeClass': (value) =>
          value.replace('swallows whole', 'swallows its prey whole').replace('swallow whole', 'swallow its prey whole'),
        'size.totalPerStandard': (value) => `is ${value} times as long with its tail fin as without`,
      }),
    ),
  );
}

/** Figures that stand in a row after "has" need none of their own; one that comes first, or after another bracket, does. */
const withVerb = (one: Clause, at: number, all: readonly Clause[]): Clause => {
  const needs =
    one.text.startsWith('a ') &&
    (at === 0 || all[at - 1]?.grounds.basis !== one.grounds.basis || all[at - 1]?.grounds.source !== one.grounds.source);
  return needs ? { ...one, text: `has ${one.text}` } : one;
};

/** What it eats, and how. */
export function food(teller: Teller): string {
  const { voice, record } = teller;
  const eats = clause(voice, record, 'feeding.eats', (_, { foods, small }) => {
    const only = new Set(Array.isArray(small) ? small : []);
    const all = (Array.isArray(foods) ? foods : []).map((one) =>
      only.has(one) ? `small ${sayWord(voice, String(one))}` : sayWord(voice, String(one)),
    );
    return `eats ${inRow(all)}`;
  });
  const fish = clause(voice, record, 'feeding.fishEating', (_, { value }) =>
    value === 'habitual' ? 'lives on fishes' : value === 'opportunist' ? 'takes a fish when it can' : 'has not been found to eat fishes',
  );
  const specialist = clause(
    voice,
    record,
    'feeding.specialist',
    (_, { food: one, obligate }) => `${obligate === true ? 'starves without' : 'wants above all'} ${words(voice, one)}`,
  );
  return tell(teller, 'It', [
    ...clauses(teller, { 'feeding.mode': (value) => value.replace('scavenger', 'scavenges') }),
    ...eats,
    ...fish,
    ...clause(voice, record, 'feeding.cleans', (_, { value }) => (value === true ? 'cleans others of parasites' : undefined)),
    ...specialist,
    ...clauses(teller, {
      'feeding.pace': (value) => `is ${value} to the food`,
      'feeding.feedings': (value) => `wants food ${value}`.replace(/(\d[\d.]*(?: to \d[\d.]*)?) a day$/, '$1 times a day'),
    }),
  ]);
}

const VERBS = ['ignores', 'displays to', 'chases', 'bites', 'kills'] as const;
const NOUNS = ['nothing', 'displays', 'chases', 'bites', 'killing'] as const;
const TARGETS: readonly (readonly [keyof Pugnacity, string])[] = [
  ['ownKind', 'its own kind'],
  ['genus', 'others of its genus'],
  ['kin', 'its kin'],
  ['lookAlikes', 'what looks like it'],
  ['smaller', 'smaller fishes'],
  ['newcomers', 'newcomers'],
  ['others', 'other animals'],
];
const SEXES: readonly (readonly [keyof Pugnacity, string])[] = [
  ['maleToMale', 'between two males'],
  ['femaleToFemale', 'between two females'],
  ['maleToFemale', 'between male and female'],
];

function pugnacityWords(pugnacity: Pugnacity): string {
  const byStep = [4, 3, 2, 1, 0].flatMap((step) => {
    const whom = TARGETS.flatMap(([name, text]) => (pugnacity[name] === step ? [text] : []));
    return whom.length === 0 ? [] : [`${VERBS[step]} ${inRow(whom)}`];
  });
  const bySex = SEXES.flatMap(([name, text]) => {
    const step = pugnacity[name];
    return typeof step === 'number' ? [`${text} to ${NOUNS[step]}`] : [];
  });
  return [
    inRow(byStep),
    ...(bySex.length === 0 ? [] : [`within its kind it comes to ${bySex.join(', ')}`.replace('comes to between', 'comes between')]),
  ].join('; ');
}

/** Ways of living whose words are a sentence of their own. */
const VERB = /^(crawls|grazes|perches|stays)/;

/** What it does to others, and whom it wants beside it. */
export function conduct(teller: Teller): string {
  const { voice, record } = teller;
  const { pugnacity } = record.conduct ?? {};
  const harms = entriesAt(record, 'conduct.harms').map((entry): Clause => {
    const upTo = typeof entry.upToShare === 'number' ? ` up to ${share(voice, entry.upToShare)} of its own length` : '';
    return {
      grounds: entry,
      text: `${words(voice, entry.how)} ${words(voice, entry.what)}${upTo} ${words(voice, entry.often)}, which ${words(voice, entry.harm)} them`,
    };
  });
  const harmless = Array.isArray(fieldAt(record, 'conduct.harms')) && harms.length === 0;
  const company = clause(voice, record, 'conduct.company', (_, { kind, least, most, dwindles }) => {
    const ways = {
      solitary: 'lives alone of its kind',
      pair: 'lives in a pair',
      harem: 'lives as one male with females',
      group: 'lives in a group',
      any: 'lives alone or together',
    } as const;
    const count =
      typeof most === 'number' && most > 1 ? `, ${least === undefined || least === most ? '' : `${String(least)} to `}${most} of them` : '';
    return `${ways[kind as keyof typeof ways]}${count}${dwindles === true ? ', though groups shrink in a tank' : ''}`;
  });
  return joined(
    pugnacity === undefined
      ? ''
      : tell(
          teller,
          'It',
          clause(voice, record, 'conduct.pugnacity', () => pugnacityWords(pugnacity)),
        ),
    tell(teller, 'Besides, it', harms),
    harmless ? 'It is not known to harm others otherwise than by swallowing and fighting.' : '',
    tell(teller, 'It', [
      ...company,
      ...clauses(teller, {
        'conduct.wayOfLiving': (value) =>
          VERB.test(value) ? value : value === 'burrows' ? 'lives in a burrow' : `spends the day ${value}`,
        'conduct.rockClaim': (value) => (/^0\D/.test(value) ? 'holds no territory on the rock' : `holds ${value} of rock once adult`),
      }),
      ...clause(voice, record, 'conduct.escapes', (_, { value }) =>
        value === 'jumps' ? 'jumps out of open tanks' : value === 'climbs' ? 'climbs out through gaps' : 'stays in the tank',
      ),
      ...clause(
        voice,
        record,
        'conduct.resembles',
        (_, { species }) =>
          `is taken for ${inRow((Array.isArray(species) ? species : []).map((id) => voice.names.speciesName(String(id))))}`,
      ),
    ]),
  );
}

/** Partners that rest on the same and are needed alike share one clause. */
function partnersIn({ voice, record }: Teller): Clause[] {
  const alike = new Map<string, { grounds: Grounded; names: string[] }>();
  for (const entry of entriesAt(record, 'needs.partners')) {
    const key = JSON.stringify([entry.optional, entry.basis, entry.source]);
    const one = alike.get(key) ?? { grounds: entry, names: [] };
    alike.set(key, { ...one, names: [...one.names, voice.names.speciesName(String(entry.species))] });
  }
  return [...alike.values()].map(({ grounds, names }) => ({
    grounds,
    text: `${grounds.optional === true ? 'can live' : 'must live'} with ${inRow(names)}`,
  }));
}

/** What it must be given. */
export function needs(teller: Teller): string {
  const { voice, record } = teller;
  const tier = clause(voice, record, 'needs.careTier', (_, { value }) =>
    value === 1 ? 'does well with most keepers' : value === 2 ? 'does well with some keepers' : 'usually fails without special provision',
  );
  const bred = clause(
    voice,
    record,
    'needs.ifCaptiveBred.careTier',
    (_, { value }) => `is of care tier ${String(value)} where bred in captivity`,
  );
  const shelters = entriesAt(record, 'needs.shelter').map(
    (entry): Clause => ({
      grounds: entry,
      text: `${entry.optional === true ? 'likes' : 'needs'} ${entry.kind === 'sand-bed' ? 'a bed of sand' : entry.kind === 'branches' ? 'branching corals or the like' : withA(words(voice, entry.kind))}`,
    }),
  );
  const partners = partnersIn(teller);
  return joined(
    tell(teller, 'It', [...tier, ...clauses(teller, { 'needs.provisions': (value) => `needs ${value}` }), ...bred]),
    tell(
      teller,
      'It',
      clauses(teller, {
        'needs.temperature': (value) => `wants water of ${value}`,
        'needs.salinity': (value) => `a salinity of ${value}`,
        'needs.acidity': (value) => `a pH of ${value}`,
        'needs.temperatureLimits': (value) => `survives ${value}`,
      }).map(wantsOf),
    ),
    tell(teller, 'It', [
      ...shelters,
      ...partners,
      ...clauses(teller, {
        'needs.sandDepth': (value) => `needs sand ${value} deep`,
        'needs.sandGrain': (value) => (value === 'any' ? 'takes sand of any grain' : `wants ${value} sand`),
        'needs.light': (value) => (value === 'any' ? 'takes any light' : `wants ${value} light`),
        'needs.flow': (value) => (value === 'any' ? 'takes any flow' : `wants ${value} flow`),
        'needs.tankAge': (value) => `wants a tank that has run for ${value}`,
        'needs.activity': (value) => value,
      }),
    ]),
    tell(
      teller,
      'It',
      clauses(teller, {
        introduction: (value) =>
          value === 'no set place'
            ? 'has no set place in the order of entry'
            : `goes in ${value === 'scavenger' ? 'first, as a scavenger' : value}`,
      }),
    ),
  );
}

/** Wants that stand alone in their bracket need the verb. */
const wantsOf = (one: Clause, at: number, all: readonly Clause[]): Clause =>
  one.text.startsWith('a ') &&
  (at === 0 || all[at - 1]?.grounds.basis !== one.grounds.basis || all[at - 1]?.grounds.source !== one.grounds.source)
    ? { ...one, text: `wants ${one.text}` }
    : one;

const CATEGORIES: Readonly<Record<string, string>> = {
  NE: 'not evaluated',
  DD: 'data deficient',
  LC: 'least concern',
  NT: 'near threatened',
  VU: 'vulnerable',
  EN: 'endangered',
  CR: 'critically endangered',
  EW: 'extinct in the wild',
  EX: 'extinct',
};

/** Sexes, age, breeding, status in law and in the wild. */
export function lifeAndLaw(teller: Teller): string {
  const { voice, record } = teller;
  return tell(teller, 'It', [
    ...clause(voice, record, 'lifeCycle.sexChange', (said, { value: way }) =>
      way === 'none' ? 'does not change sex' : way === 'both-at-once' ? 'is of both sexes at once' : `changes sex ${said()}`,
    ),
    ...clauses(teller, { 'lifeCycle.longevity': (value) => `lives up to ${value}` }),
    ...clause(voice, record, 'lifeCycle.captiveBred', (_, { value }) =>
      value === 'usual'
        ? 'is usually on offer tank-raised'
        : value === 'sometimes'
          ? 'is sometimes on offer tank-raised'
          : 'is rarely on offer tank-raised',
    ),
    ...clause(
      voice,
      record,
      'conservation.iucn',
      (_, { category, year }) =>
        `is in the Red List as ${CATEGORIES[String(category)] ?? String(category)}${year === undefined ? '' : ` (${String(year)})`}`,
    ),
    ...clause(
      voice,
      record,
      'conservation.cites',
      (_, { appendix, since }) =>
        `is listed in Appendix ${String(appendix)} of CITES${since === undefined ? '' : ` since ${String(since)}`}`,
    ),
  ]);
}

/** What can hurt, with its place on the animal. */
export function hazards(teller: Teller): string {
  const { voice, record } = teller;
  const all = entriesAt(record, 'hazards').map(
    (entry): Clause => ({
      grounds: entry,
      text: `${words(voice, entry.kind)}${typeof entry.part === 'string' ? `, “${entry.part}”,` : ''} ${entry.severity === 'dangerous' ? 'that needs medical help' : 'that heals by itself as a rule'}`,
    }),
  );
  return tell(teller, 'It can hurt by', all).replaceAll('; it ', '; by ');
}

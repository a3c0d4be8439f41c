/** The sample of species records: valid, sourced, within what is published, and wide enough to show every kind of trouble. */
import { readdirSync } from 'node:fs';
import path from 'node:path';
import { asymptoticFromMaximum, libraryOf, rules, stockOf, type StockKind } from '@commensal/core';
import type { SpeciesRecord } from '@commensal/schema';
import { bibliographyProblems, speciesProblems, standInsProblems } from '@commensal/schema';
import { bibliography, records, release, standIns } from '@commensal/species-sample';
import { describe, expect, it } from 'vitest';
import { CAUTION_SOURCES } from '../../packages/core/src/check/cautions.js';
import { filesUnder, root, textOf } from '../support/repository.js';

const FOLDER = 'packages/species-sample/records';
const files = filesUnder(FOLDER).filter((file) => file.endsWith('.species.json'));
const inFiles = files.map((file) => ({ file, record: JSON.parse(textOf(file)) as SpeciesRecord }));

/** Every object in a document. */
function objectsIn(value: unknown): Record<string, unknown>[] {
  if (typeof value !== 'object' || value === null) return [];
  const inner = Object.values(value).flatMap(objectsIn);
  return Array.isArray(value) ? inner : [value as Record<string, unknown>, ...inner];
}
const sourcesIn = (value: unknown): string[] => objectsIn(value).flatMap(({ source }) => (typeof source === 'string' ? [source] : []));

describe('files', () => {
  it('there are records of at least 48 species of 18 families', () => {
    expect(files.length).toBeGreaterThanOrEqual(48);
    expect(new Set(inFiles.map(({ record }) => record.taxon.family)).size).toBeGreaterThanOrEqual(18);
  });

  it('each file is named by the id, in a folder named by the family', () => {
    for (const { file, record } of inFiles) expect(file).toBe(`${FOLDER}/${record.taxon.family.toLowerCase()}/${record.id}.species.json`);
  });

  it('nothing else lies among them', () => {
    expect(filesUnder(FOLDER)).toEqual(files);
    for (const folder of readdirSync(path.join(root, FOLDER))) expect(folder).toMatch(/^[a-z]+idae$/);
  });

  it('the package hands out just these records', () => {
    const byId = (list: readonly SpeciesRecord[]): SpeciesRecord[] => [...list].sort((one, other) => (one.id < other.id ? -1 : 1));
    expect(byId(records)).toEqual(byId(inFiles.map(({ record }) => record)));
    expect(release).toMatch(/^\d{4}\.\d+$/);
  });
});

describe('documents', () => {
  it.each(inFiles)('$record.id is valid', ({ record }) => {
    expect(speciesProblems(record)).toEqual([]);
  });

  it('no text holds a line break or another control character', () => {
    for (const data of [records, bibliography, standIns]) expect(JSON.stringify(data)).not.toMatch(/\\[bfnrt]|\\u00[01]/);
  });

  it('stand-ins and bibliography are valid', () => {
    expect(standInsProblems(standIns)).toEqual([]);
    expect(bibliographyProblems(bibliography)).toEqual([]);
  });

  it('no record is from a later release than the sample, and none is replaced by one that is missing', () => {
    const ids = new Set(records.map((record) => record.id));
    for (const { addedIn, replacedBy } of records) {
      // Releases are a year and a number, so they sort as text up to the ninth of a year.
      expect(addedIn <= release).toBe(true);
      if (replacedBy !== undefined) expect(ids).toContain(replacedBy);
    }
  });
});

describe('sources', () => {
  const known = new Set(bibliography.map((entry) => entry.id));
  const ofCautions = Object.values(CAUTION_SOURCES).flat();

  it('every source of a figure is in the bibliography', () => {
    const named = [...records.flatMap(sourcesIn), ...sourcesIn(standIns), ...records.flatMap((record) => record.sources)];
    expect(named.length).toBeGreaterThan(0);
    expect(named.filter((source) => !known.has(source))).toEqual([]);
  });

  it('every source of a rule is in the bibliography', () => {
    const named = rules.flatMap((rule) => [...rule.sources, ...sourcesIn(rule.defaults)]);
    expect(named.length).toBeGreaterThan(0);
    expect(named.filter((source) => !known.has(source))).toEqual([]);
  });

  it('every source of a caution is in the bibliography', () => {
    expect(ofCautions.length).toBeGreaterThan(0);
    expect(ofCautions.filter((source) => !known.has(source))).toEqual([]);
  });

  it('every entry of the bibliography is used by a record, a stand-in, a rule or a caution, or cited in the guides or reference tests', () => {
    const cited = [...filesUnder('docs'), ...filesUnder('tests/reference')].flatMap((file) =>
      [...textOf(file).matchAll(/\[([a-z0-9-]+)\]/g)].map(([, key = '']) => key),
    );
    const used = new Set([
      ...records.flatMap(sourcesIn),
      ...sourcesIn(standIns),
      ...rules.flatMap((rule) => [...rule.sources, ...sourcesIn(rule.defaults)]),
      ...ofCautions,
      ...cited,
    ]);
    expect([...known].filter((id) => !used.has(id))).toEqual([]);
  });

  it('a measured figure names its source', () => {
    const measured = records.flatMap((record) => objectsIn(record).filter(({ basis }) => basis === 'measured'));
    expect(measured.length).toBeGreaterThan(100);
    expect(measured.filter(({ source }) => source === undefined)).toEqual([]);
  });
});

describe('names', () => {
  const named = records.flatMap(({ id, vernacularNames }) => vernacularNames.map(({ name, language }) => ({ id, name, language })));
  const inLanguage = (language: string): typeof named => named.filter((one) => one.language === language);

  it('every species has one in English, and most have one in a further language', () => {
    expect(new Set(inLanguage('en').map(({ id }) => id)).size).toBe(records.length);
    const further = new Set(named.filter(({ language }) => language !== 'en').map(({ id }) => id));
    expect(further.size).toBeGreaterThan(records.length / 2);
  });

  it('none stands twice in a record', () => {
    for (const { vernacularNames } of records) expect(new Set(vernacularNames.map(({ name }) => name)).size).toBe(vernacularNames.length);
  });

  it('the first of a language, by which reports call a species, belongs to that species alone', () => {
    const languages = [...new Set(named.map(({ language }) => language))];
    expect(languages.length).toBeGreaterThan(3);
    for (const language of languages) {
      const first = records.flatMap(({ vernacularNames }) => vernacularNames.find((one) => one.language === language)?.name ?? []);
      expect(first.filter((name, index) => first.indexOf(name) !== index)).toEqual([]);
    }
  });

  it('German names begin with a capital, Japanese ones are written in kana and kanji', () => {
    const [german, japanese] = [inLanguage('de'), inLanguage('ja')];
    expect(german.length).toBeGreaterThan(0);
    expect(japanese.length).toBeGreaterThan(0);
    expect(german.filter(({ name }) => !/^\p{Lu}/u.test(name))).toEqual([]);
    expect(japanese.filter(({ name }) => !/^[\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Han}ー・]+$/u.test(name))).toEqual([]);
  });

  it('French and Spanish names begin in lower case: none begins with a proper name', () => {
    const romance = [...inLanguage('fr'), ...inLanguage('es')];
    expect(romance.length).toBeGreaterThan(0);
    expect(romance.filter(({ name }) => !/^\p{Ll}/u.test(name))).toEqual([]);
  });

  it('authors come with a year, in brackets as a whole or not at all (International Code of Zoological Nomenclature, article 51)', () => {
    const authors = records.flatMap(({ taxon }) => taxon.scientificNameAuthorship ?? []);
    expect(authors.length).toBeGreaterThan(0);
    expect(
      authors.filter((author) => !/^(?:[^()]+, 1[789]\d\d|[^()]+, 20\d\d|\([^()]+, 1[789]\d\d\)|\([^()]+, 20\d\d\))$/.test(author)),
    ).toEqual([]);
  });

  it('a synonym is no other species of the sample, nor a synonym of one', () => {
    const claimed = records.flatMap(({ taxon, synonyms = [] }) => [taxon.scientificName, ...synonyms]);
    expect(claimed.length).toBeGreaterThan(records.length);
    expect(claimed.filter((name, index) => claimed.indexOf(name) !== index)).toEqual([]);
  });

  it('a number in the register of names belongs to one species', () => {
    const numbers = records.flatMap(({ taxon }) => taxon.taxonID ?? []);
    expect(numbers.length).toBeGreaterThan(0);
    expect(new Set(numbers).size).toBe(numbers.length);
  });
});

describe('protection', () => {
  it('the address of an assessment stands only where it was read', () => {
    const assessed = records.flatMap(({ conservation }) => conservation?.iucn ?? []);
    expect(assessed.length).toBeGreaterThan(0);
    expect(assessed.some(({ url }) => url !== undefined)).toBe(true);
    expect(assessed.filter(({ url, basis }) => url !== undefined && basis !== 'measured')).toEqual([]);
  });

  it('every seahorse is listed under CITES (Appendix II, 15 May 2004)', () => {
    const seahorses = records.filter(({ taxon }) => taxon.genus === 'Hippocampus');
    expect(seahorses.length).toBeGreaterThan(0);
    for (const { conservation } of seahorses) expect(conservation?.cites).toMatchObject({ appendix: 'II', since: '2004-05-15' });
  });
});

describe('body depth over standard length within its family (FishShapes v1, Price et al. 2022: least and greatest species mean)', () => {
  const DEPTH: Readonly<Record<string, readonly [least: number, most: number]>> = {
    Pomacentridae: [0.36, 0.68],
    Acanthuridae: [0.3, 0.69],
    Pomacanthidae: [0.46, 0.77],
    Chaetodontidae: [0.41, 0.82],
    Labridae: [0.12, 0.47],
    Gobiidae: [0.15, 0.32],
    Blenniidae: [0.17, 0.32],
    Apogonidae: [0.26, 0.48],
    Serranidae: [0.27, 0.48],
    Epinephelidae: [0.25, 0.48],
    Scorpaenidae: [0.31, 0.43],
    Antennariidae: [0.37, 0.69],
    Cirrhitidae: [0.34, 0.41],
    Balistidae: [0.4, 0.59],
    Monacanthidae: [0.13, 0.65],
    Tetraodontidae: [0.16, 0.49],
    Callionymidae: [0.09, 0.28],
    Syngnathidae: [0.02, 0.17],
    Muraenidae: [0.02, 0.1],
  };
  const OUTLIER = 'sphaeramia-nematoptera';
  const measured = records.filter((record) => DEPTH[record.taxon.family] !== undefined && record.shape?.bodyDepth?.basis === 'measured');

  it('covers most of these families', () => {
    expect(new Set(measured.map((record) => record.taxon.family)).size).toBeGreaterThan(12);
  });

  it('Sphaeramia nematoptera, 0.5422, is deeper than all 46 cardinalfishes behind the range, as its source has it', () => {
    expect(records.find(({ id }) => id === OUTLIER)?.shape?.bodyDepth?.value).toBe(0.5422);
  });

  it.each(
    measured
      .filter(({ id }) => id !== OUTLIER)
      .map((record) => ({ id: record.id, family: record.taxon.family, depth: record.shape?.bodyDepth?.value ?? Number.NaN })),
  )('$id ($family): $depth', ({ family, depth }) => {
    const [least, most] = DEPTH[family] as readonly [number, number];
    // Half a unit of the second decimal, to which the ranges are given.
    expect(depth).toBeGreaterThanOrEqual(least - 0.005);
    expect(depth).toBeLessThanOrEqual(most + 0.005);
  });
});

const centre = (band: { value?: number; low?: number; high?: number } | undefined): number | undefined =>
  band?.value ?? (band?.low === undefined || band.high === undefined ? undefined : (band.low + band.high) / 2);

describe('growth (the traps of Morais & Bellwood 2018 and FishBase 06/2018)', () => {
  const growing = records.filter((record) => record.growth !== undefined);
  it('there are records with growth', () => {
    expect(growing.length).toBeGreaterThan(10);
  });

  it.each(growing)(
    'the asymptotic length of $id lies within 0.4 and 1.5 times its maximum, its rate within 0.03 and 16 a year',
    ({ growth, size }) => {
      const linf = centre(growth?.asymptoticLength);
      const maximum = centre(size?.maximum);
      if (linf !== undefined && maximum !== undefined) {
        expect(linf / maximum).toBeGreaterThanOrEqual(0.4);
        expect(linf / maximum).toBeLessThanOrEqual(1.5);
      }
      const rate = centre(growth?.rate);
      if (rate !== undefined) {
        expect(rate).toBeGreaterThan(0.03);
        expect(rate).toBeLessThan(16);
      }
      expect(linf ?? rate).toBeDefined();
    },
  );
});

describe('growth rates that no study gives', () => {
  const rated = records.flatMap(({ id, taxon, size, growth }) =>
    growth?.rate === undefined ? [] : [{ id, taxon, size, rate: growth.rate }],
  );
  const derived = rated.filter(({ rate }) => rate.basis === 'derived');
  const fromGenus = rated.filter(({ rate }) => rate.basis === 'imputed');

  it('there are some of each sort, and none is from memory or a guess', () => {
    expect(derived.length).toBeGreaterThan(5);
    expect(fromGenus.length).toBeGreaterThan(5);
    expect(rated.filter(({ rate }) => rate.basis === 'recalled' || rate.basis === 'practice').map(({ id }) => id)).toEqual([]);
  });

  it.each(derived)('$id lies on the line of the 68 reef fishes of Morais & Bellwood (2018), with its band', ({ size, rate }) => {
    // Least squares of the logarithms of median rates over those of median asymptotic lengths, recomputed from the published curves.
    const asymptoticCm = asymptoticFromMaximum(centre(size?.maximum) ?? Number.NaN);
    const onLine = Math.exp(2.169 - 0.904 * Math.log(asymptoticCm));
    // Three figures are kept, which is half a percent at worst.
    expect((rate.value ?? Number.NaN) / onLine).toBeCloseTo(1, 2);
    expect((rate.high ?? Number.NaN) / onLine / 2.4).toBeCloseTo(1, 2);
    expect(((rate.low ?? Number.NaN) / onLine) * 2.4).toBeCloseTo(1, 2);
  });

  it.each(fromGenus)('$id has a band as wide as relatives miss a species by', ({ rate }) => {
    expect(rate).toMatchObject({ from: 'genus', source: 'morais-bellwood-2018' });
    expect((rate.high ?? Number.NaN) / (rate.value ?? Number.NaN) / 2.16).toBeCloseTo(1, 2);
    expect((rate.value ?? Number.NaN) / (rate.low ?? Number.NaN) / 2.16).toBeCloseTo(1, 2);
  });
});

describe('every kind of trouble has its species', () => {
  const kinds = new Map<string, StockKind>();
  const { stock, problems } = stockOf(
    {
      $schema: 'https://commensal.example/schema/1.0/situation.schema.json',
      date: '2027-03-01',
      tank: { water: { value: 240, unit: 'L' } },
      wishes: records.map((record) => ({ species: record.id })),
    },
    libraryOf(records, standIns, release),
  );
  for (const wish of stock.wishes) kinds.set(wish.kind.id, wish.kind);

  const fed = ({ record }: StockKind): NonNullable<SpeciesRecord['feeding']> => record.feeding ?? {};
  const needs = (kind: StockKind, provision: string): boolean =>
    (kind.record.needs?.provisions?.list as readonly string[] | undefined)?.includes(provision) === true;
  const eats = (kind: StockKind, food: string): boolean =>
    (fed(kind).eats?.foods as readonly string[] | undefined)?.includes(food) === true;
  const hazard = (kind: StockKind, what: string): boolean => kind.record.hazards?.some((entry) => entry.kind === what) === true;

  /** The trouble, what shows it in a record, and species by which keepers know it. */
  const TROUBLES: readonly (readonly [trouble: string, shows: (kind: StockKind) => boolean, ids: readonly string[]])[] = [
    [
      'swallows tank mates',
      (kind) => kind.gapeClass === 'engulfs' && fed(kind).fishEating?.value === 'habitual',
      ['pterois-volitans', 'cephalopholis-miniata', 'paracirrhites-forsteri'],
    ],
    ['swallows what is as long as itself', (kind) => kind.gapeClass === 'distensible', ['antennarius-maculatus']],
    [
      'swallows when the chance comes',
      (kind) => kind.gapeClass === 'engulfs' && fed(kind).fishEating?.value === 'opportunist',
      ['oxycirrhites-typus', 'thalassoma-lunare'],
    ],
    [
      'tears or crushes',
      (kind) => kind.gapeClass === 'notGapeLimited' && fed(kind).mode?.value === 'crusher',
      ['balistoides-conspicillum', 'arothron-nigropunctatus'],
    ],
    ['stings what touches it', (kind) => fed(kind).mode?.value === 'stinger', ['entacmaea-quadricolor', 'stichodactyla-gigantea']],
    ['eats shrimps', (kind) => eats(kind, 'shrimps') && kind.form === 'fish', ['balistoides-conspicillum', 'pterois-volitans']],
    ['nips corals', (kind) => eats(kind, 'corals'), ['centropyge-bicolor', 'chaetodon-auriga', 'pomacanthus-imperator']],
    [
      'a long snout that says nothing of the gape',
      (kind) => kind.record.shape?.longSnout?.value === true,
      ['chelmon-rostratus', 'oxycirrhites-typus'],
    ],
    [
      'spared because it cleans',
      (kind) => fed(kind).cleans?.value === true,
      ['elacatinus-oceanops', 'labroides-dimidiatus', 'lysmata-amboinensis'],
    ],
    [
      'kills its own kind',
      (kind) => kind.pugnacity?.ownKind === 4,
      ['acanthurus-achilles', 'pictichromis-paccagnellae', 'stenopus-hispidus'],
    ],
    [
      'fights the whole family',
      (kind) => (kind.pugnacity?.kin ?? 0) >= 3,
      ['zebrasoma-flavescens', 'centropyge-loriculus', 'amphiprion-frenatus'],
    ],
    [
      'rules the tank',
      (kind) => (kind.pugnacity?.others ?? 0) >= 3,
      ['dascyllus-trimaculatus', 'chrysiptera-cyanea', 'amphiprion-biaculeatus'],
    ],
    ['attacks newcomers', (kind) => (kind.pugnacity?.newcomers ?? 0) >= 3, ['pictichromis-paccagnellae', 'pseudocheilinus-hexataenia']],
    ['claims much rock', (kind) => (kind.rockClaimL?.centre ?? 0) >= 15, ['pomacanthus-imperator', 'cephalopholis-urodeta']],
    ['lives alone', (kind) => kind.record.conduct?.company?.kind === 'solitary', ['acanthurus-achilles', 'pomacanthus-imperator']],
    ['one pair at most', (kind) => kind.record.conduct?.company?.kind === 'pair', ['amphiprion-ocellaris', 'synchiropus-splendidus']],
    [
      'one male and his females',
      (kind) => kind.record.conduct?.company?.kind === 'harem',
      ['pseudanthias-squamipinnis', 'dascyllus-aruanus'],
    ],
    [
      'pines without its group',
      (kind) => (kind.record.conduct?.company?.least ?? 1) >= 3,
      ['chromis-viridis', 'pseudanthias-squamipinnis'],
    ],
    ['a group that dwindles', (kind) => kind.record.conduct?.company?.dwindles === true, ['chromis-viridis', 'pseudanthias-bartlettorum']],
    [
      'usually fails',
      (kind) => kind.record.needs?.careTier?.value === 3,
      ['zanclus-cornutus', 'synchiropus-splendidus', 'stichodactyla-gigantea'],
    ],
    [
      'starves without its food',
      (kind) => needs(kind, 'live-copepods') || needs(kind, 'sponge-food'),
      ['synchiropus-splendidus', 'zanclus-cornutus', 'pygoplites-diacanthus'],
    ],
    ['eats too slowly for company', (kind) => fed(kind).pace?.value === 'slow', ['hippocampus-kuda', 'synchiropus-splendidus']],
    [
      'needs sand or rubble',
      (kind) => needs(kind, 'sand-to-sleep-in') || needs(kind, 'burrow-rubble') || needs(kind, 'sand-to-sift'),
      ['halichoeres-chrysus', 'opistognathus-aurifrons', 'valenciennea-puellaris'],
    ],
    ['needs empty shells', (kind) => needs(kind, 'empty-shells'), ['clibanarius-tricolor']],
    ['jumps', (kind) => needs(kind, 'tight-lid'), ['nemateleotris-magnifica', 'cirrhilabrus-solorensis']],
    [
      'wants a larger tank than most have',
      (kind) => (kind.adultCm?.centre ?? 0) >= 20 && kind.record.needs?.activity?.value === 'roams',
      ['naso-lituratus', 'pomacanthus-imperator'],
    ],
    ['wants cooler water', (kind) => (kind.temperatureCel?.high ?? 99) < 24, ['lythrypnus-dalli']],
    [
      'goes in first',
      (kind) => kind.record.introduction?.value === 'scavenger',
      ['clibanarius-tricolor', 'nassarius-distortus', 'lysmata-amboinensis'],
    ],
    ['goes in last', (kind) => kind.record.introduction?.value === 'last', ['acanthurus-achilles', 'balistoides-conspicillum']],
    ['settles only before others', (kind) => kind.record.introduction?.value === 'early', ['nemateleotris-magnifica', 'hippocampus-kuda']],
    ['venomous to people', (kind) => hazard(kind, 'venom'), ['pterois-volitans', 'plotosus-lineatus', 'diadema-setosum']],
    ['poisonous to tank mates', (kind) => hazard(kind, 'toxin'), ['lactoria-cornuta', 'canthigaster-valentini']],
    ['cuts or bites the hand', (kind) => hazard(kind, 'cut') || hazard(kind, 'bite'), ['acanthurus-achilles', 'echidna-nebulosa']],
    ['in trade under law', (kind) => kind.record.conservation?.cites !== undefined, ['hippocampus-kuda']],
    ['rare in the wild', (kind) => kind.record.conservation?.iucn !== undefined, ['pterapogon-kauderni']],
    [
      'known by two names',
      (kind) => (kind.record.synonyms?.length ?? 0) > 0,
      ['amphiprion-biaculeatus', 'centropyge-loriculus', 'cromileptes-altivelis'],
    ],
    [
      'a mouth that only relatives tell of',
      (kind) => kind.swallow?.basis === 'imputed',
      ['pseudochromis-fridmani', 'cirrhilabrus-solorensis'],
    ],
    [
      'kin drawn narrower than the family',
      (kind) => kind.record.kinGroup !== undefined,
      ['amphiprion-ocellaris', 'pseudanthias-squamipinnis', 'halichoeres-chrysus'],
    ],
  ];

  it('all records are in the stock', () => {
    expect(problems).toEqual([]);
    expect(kinds.size).toBe(records.length);
  });

  it.each(TROUBLES)('%s', (_, shows, ids) => {
    expect(ids.length).toBeGreaterThan(0);
    for (const id of ids) {
      const kind = kinds.get(id);
      expect(kind, id).toBeDefined();
      expect(shows(kind as StockKind), id).toBe(true);
    }
    // Something must not have it, or it tells no species from another.
    expect([...kinds.values()].every(shows)).toBe(false);
  });

  it('all forms of animals are there', () => {
    expect(new Set(records.map((record) => record.form))).toEqual(
      new Set(['fish', 'shrimp', 'crab', 'hermit-crab', 'snail', 'urchin', 'anemone']),
    );
  });
});

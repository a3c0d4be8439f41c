import { describe, expect, it } from 'vitest';
import { situationProblems, speciesProblems } from './index.js';
import type { Problem } from './problem.js';

const SITUATION = 'https://commensal.example/schema/1.0/situation.schema.json';
const SPECIES = 'https://commensal.example/schema/1.0/species.schema.json';

const situation = (more: object): object => ({
  $schema: SITUATION,
  date: '2027-03-01',
  tank: { water: { value: 240, unit: 'L' } },
  ...more,
});

const species = (more: object): object => ({
  $schema: SPECIES,
  id: 'exemplum-primum',
  addedIn: '2026.1',
  taxon: { scientificName: 'Exemplum primum', genus: 'Exemplum', family: 'Exemplidae' },
  vernacularNames: [{ name: 'first example', language: 'en' }],
  form: 'fish',
  sources: [],
  ...more,
});

const sentence = ({ found, allowed, fix }: Problem): string => `${found}; ${allowed}. ${fix}`;
const said = (problems: readonly Problem[]): string[] =>
  problems.map((problem) => `${problem.code} at "${problem.pointer}": ${sentence(problem)}`);

describe('what a person reads', () => {
  it('a property is missing', () => {
    expect(said(situationProblems(situation({ tank: {} })))).toEqual([
      'missing-property at "/tank": tank has no "water"; "water" must be given. Add "water".',
    ]);
  });

  it('a property is misspelt, which is one mistake even where it must be given', () => {
    expect(said(situationProblems(situation({ titel: 'The tea room' })))).toEqual([
      'unknown-property at "/titel": the document has "titel"; it may have $schema, title, date, keeper, tank, residents, wishes, introductions, events, settings or extensions. Did you mean "title"?',
    ]);
    expect(said(situationProblems(situation({ keeper: { careTeir: 1 } })))).toEqual([
      'unknown-property at "/keeper/careTeir": keeper has "careTeir"; it may have name, careTier or provisions. Did you mean "careTier"?',
    ]);
    expect(
      situationProblems(situation({ tank: { water: { vlaue: 240, unit: 'L' } } })).map(({ pointer, fix }) => `${pointer} ${fix}`),
    ).toEqual(['/tank/water/vlaue Did you mean "value"?']);
    expect(
      situationProblems(situation({ tank: { water: { low: 230, hihg: 240, unit: 'L' } } })).map(({ pointer, fix }) => `${pointer} ${fix}`),
    ).toEqual(['/tank/water/hihg Did you mean "high"?']);
    expect(
      speciesProblems(species({ kinGroup: { value: 'examples', basis: 'measured', sourse: 'invented-2020' } })).map(({ fix }) => fix),
    ).toEqual(['Did you mean "source"?']);
  });

  it('a property that is there already is not what was meant', () => {
    expect(situationProblems(situation({ keeper: { careTeir: 1, careTier: 1 } })).map(({ fix }) => fix)).toEqual(['Take it out.']);
  });

  it('a property is not known at all', () => {
    expect(said(situationProblems(situation({ keeper: { shoeSize: 43, careTier: 1 } })))).toEqual([
      'unknown-property at "/keeper/shoeSize": keeper has "shoeSize"; it may have name, careTier or provisions. Take it out.',
    ]);
  });

  it('a word is misspelt', () => {
    expect(said(speciesProblems(species({ needs: { activity: { value: 'perchs', basis: 'practice' } } })))).toEqual([
      'not-in-list at "/needs/activity/value": needs.activity.value is "perchs"; it must be roams, cruises, perches, crawls or fixed. Did you mean "perches"?',
    ]);
  });

  it('a number is out of range: both ends are named', () => {
    expect(said(situationProblems(situation({ keeper: { careTier: 4 } })))).toEqual([
      'too-large at "/keeper/careTier": keeper.careTier is 4; it must be from 1 to 3. Give a number in that range.',
    ]);
    expect(said(speciesProblems(species({ size: { entry: { value: 0, unit: 'cm', basis: 'practice' } } })))).toEqual([
      'too-small at "/size/entry/value": size.entry.value is 0; it must be more than 0 and at most 10000. Give a number in that range; check the unit as well.',
    ]);
  });

  it('a number stands in quotes', () => {
    expect(said(situationProblems(situation({ tank: { water: { value: '240', unit: 'L' } } })))).toEqual([
      'wrong-type at "/tank/water/value": tank.water.value is "240"; it must be a number without quotes. Write a number without quotes.',
    ]);
  });

  it('a day has another form', () => {
    expect(said(situationProblems(situation({ date: '1 March 2027' })))).toEqual([
      'wrong-form at "/date": date is "1 March 2027"; it must be a day as yyyy-mm-dd, such as "2027-03-01". Write it in that form.',
    ]);
  });

  it('a quantity has no number', () => {
    expect(said(situationProblems(situation({ tank: { water: { unit: 'L' } } })))).toEqual([
      'no-number at "/tank/water": tank.water has neither "value" nor "low"; "value" must be given, or "low" and "high", or all three. Add the number.',
    ]);
  });

  it('a band has one end, which is one mistake', () => {
    expect(said(situationProblems(situation({ tank: { water: { high: 240, unit: 'L' } } })))).toEqual([
      'needs-also at "/tank/water": tank.water has "high" but no "low"; "high" needs "low" beside it. Add "low", or take "high" out.',
    ]);
  });

  it('rock has neither of what it may be known by', () => {
    expect(said(situationProblems(situation({ tank: { water: { value: 240, unit: 'L' }, rock: {} } })))).toEqual([
      'needs-one-of at "/tank/rock": tank.rock has neither "mass" nor "envelope"; one of them must be given. Add "mass" or another of them.',
    ]);
  });

  it('a measured figure has no source', () => {
    expect(said(speciesProblems(species({ size: { maximum: { value: 11, unit: 'cm', basis: 'measured' } } })))).toEqual([
      'needs-also at "/size/maximum": size.maximum has the basis "measured" but no "source"; with the basis "measured", "source" must be given. Add "source", or give the basis that fits.',
    ]);
  });

  it('a figure from practice has a source', () => {
    const maximum = { value: 11, unit: 'cm', basis: 'practice', source: 'invented-2020' };
    expect(said(speciesProblems(species({ size: { maximum }, sources: ['invented-2020'] })))).toEqual([
      'not-allowed-here at "/size/maximum/source": size.maximum.source is "invented-2020" beside the basis "practice"; a figure from practice or memory has no source. Take it out, or give the basis that fits.',
    ]);
  });

  it('a kind is not known, or missing, or no word', () => {
    expect(said(situationProblems(situation({ events: [{ kind: 'rock-relayed', date: '2027-03-10' }] })))).toEqual([
      'not-in-list at "/events/0/kind": events[0].kind is "rock-relayed"; it must be rock-relaid, tank-divided or animal-removed. Did you mean "rock-relaid"?',
    ]);
    expect(situationProblems(situation({ events: [{ date: '2027-03-10' }] })).map(({ code }) => code)).toEqual(['missing-property']);
    expect(situationProblems(situation({ events: [{ kind: 3 }] })).map(({ code }) => code)).toEqual(['not-in-list']);
  });

  it('the document is none', () => {
    expect(said(situationProblems([]))).toEqual([
      'wrong-type at "": the document is an empty list; it must be an object in braces. Write an object in braces.',
    ]);
    expect(situationProblems(null).map(({ code }) => code)).toEqual(['wrong-type']);
    expect(situationProblems(undefined).map(({ code }) => code)).toEqual(['wrong-type']);
  });
});

describe('problemsOf', () => {
  it('names problems in the order of the document', () => {
    const data = situation({ wishes: [{ species: 'Two Words' }, {}], keeper: { careTier: 9 }, title: '' });
    expect(situationProblems(data).map(({ pointer }) => pointer)).toEqual(['/wishes/0/species', '/wishes/1', '/keeper/careTier', '/title']);
  });

  it('names each of several mistakes once', () => {
    const data = species({ size: { maximum: { value: 'long', unit: 'furlong', basis: 'imputed' } } });
    expect(speciesProblems(data).map(({ code, pointer }) => `${code} ${pointer}`)).toEqual([
      'needs-also /size/maximum',
      'needs-also /size/maximum',
      'wrong-type /size/maximum/value',
      'not-in-list /size/maximum/unit',
    ]);
  });

  it('changes nothing in the document', () => {
    const data = situation({ wishes: [{}], extensions: { 'Not a vendor': 1 } });
    const before = structuredClone(data);
    situationProblems(data);
    expect(data).toEqual(before);
  });
});

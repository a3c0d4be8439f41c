/** Situations in which the rules on contests say what few other situations make them say. */
import { libraryOf } from '@commensal/core';
import type { Newcomer, Resident, Situation } from '@commensal/schema';
import { records, standIns } from '@commensal/species-sample';
import type { Case } from './situations.js';

const $schema = 'https://commensal.example/schema/1.0/situation.schema.json';
const library = libraryOf(records, standIns, 'sample');

const cm = (value: number): { value: number; unit: 'cm' } => ({ value, unit: 'cm' });

const resident = (species: string, lengthCm: number, more: Partial<Resident> = {}): Resident => ({
  id: species,
  species,
  length: cm(lengthCm),
  ...more,
});

const tankWith = (rockKg: number, more: Partial<Situation['tank']> = {}): Situation['tank'] => ({
  water: { value: 240, unit: 'L' },
  length: cm(120),
  width: cm(45),
  rock: { mass: { value: rockKg, unit: 'kg' } },
  ...more,
});

const caseOf = (name: string, tank: Situation['tank'], residents: Resident[], newcomers: Newcomer[] = []): Case => ({
  name,
  library,
  situation: {
    $schema,
    date: '2027-03-01',
    tank,
    residents,
    ...(newcomers.length > 0 ? { introductions: [{ date: '2027-04-01', animals: newcomers }] } : {}),
  },
});

const comer = (species: string, lengthCm: number): Newcomer => ({ species, length: cm(lengthCm) });

export const contestCases: readonly Case[] = [
  caseOf('two surgeonfishes', tankWith(30), [resident('zebrasoma-flavescens', 10), resident('acanthurus-leucosternon', 14)]),
  caseOf('two anemonefishes', tankWith(30), [resident('amphiprion-ocellaris', 6, { count: 2 }), resident('amphiprion-clarkii', 9)]),
  caseOf('two that kill, as long as each other', tankWith(30), [
    resident('amphiprion-frenatus', 10),
    resident('amphiprion-biaculeatus', 10),
  ]),
  caseOf('one that kills, with rock to spare', tankWith(120), [
    resident('balistoides-conspicillum', 20),
    resident('salarias-fasciatus', 10),
  ]),
  caseOf('about rock enough', tankWith(30), [resident('dascyllus-trimaculatus', 10), resident('gramma-loreto', 5)]),
  caseOf(
    'a wrasse that holds the holes',
    tankWith(30, { shelters: { holes: 1 } }),
    [resident('pseudocheilinus-hexataenia', 8)],
    [comer('ecsenius-bicolor', 5)],
  ),
  caseOf('a settler that holds the rock', tankWith(8), [resident('dascyllus-trimaculatus', 9)], [comer('gramma-loreto', 5)]),
  caseOf('a settler that holds about all of it', tankWith(17), [resident('dascyllus-trimaculatus', 9)], [comer('gramma-loreto', 4)]),
  caseOf('a ruler, and about rock enough', tankWith(24), [
    resident('thalassoma-lunare', 18),
    resident('gramma-loreto', 6),
    resident('ecsenius-bicolor', 7),
    resident('salarias-fasciatus', 9),
  ]),
];

import type { Study } from '@commensal/schema';

/** How long must a clownfish be to be safe from a hawkfish: a small study of our own, to be changed by tests. */
export const hawkfishStudy = (): Study => ({
  $schema: 'https://commensal.example/schema/1.0/study.schema.json',
  title: 'Pip and the hawkfish',
  situation: {
    $schema: 'https://commensal.example/schema/1.0/situation.schema.json',
    date: '2027-03-01',
    tank: { water: { value: 300, unit: 'L' }, rock: { mass: { value: 40, unit: 'kg' } }, feedingsPerDay: 2, cycledOn: '2026-03-01' },
    residents: [{ id: 'hallie', species: 'paracirrhites-forsteri', length: { value: 12, unit: 'cm' } }],
    introductions: [{ date: '2027-03-15', animals: [{ id: 'pip', species: 'amphiprion-ocellaris', length: { value: 4, unit: 'cm' } }] }],
  },
  vary: [
    {
      name: 'pip_cm',
      at: ['/situation/introductions/0/animals/0/length'],
      unit: 'cm',
      description: 'Length of Pip on the day it goes in.',
      over: { kind: 'uniform', low: 3, high: 8 },
    },
    { name: 'feedings', at: ['/situation/tank/feedingsPerDay'], over: { kind: 'list', values: [1, 3] } },
  ],
  uncertain: ['growth', 'shape'],
  design: { kind: 'sobol', scenarios: 2048 },
  seed: 20270301,
  outputs: [
    { kind: 'outcome', rule: 'gape', subjects: ['hallie', 'pip'] },
    { kind: 'first-failure', rule: 'gape', subjects: ['hallie', 'pip'], level: 'error' },
    { kind: 'missing-rock' },
  ],
});

import type { Change } from '@commensal/schema';
import { describe, expect, test } from 'vitest';
import { findingOf, metric, plain, swallowing, us } from '../tests/support/club.js';
import { sayCaution, sayChange, sayFinding, sayOrderReason } from './sentences.js';

describe('a finding', () => {
  test('names its animals by their roles', () => {
    expect(plain(sayFinding(metric, swallowing('moll', 'wick')))).toMatch(
      /^From 14 September 2027 Moll's perch \(12\.5 cm by then\) could swallow Wick \(6 cm\)/,
    );
  });

  test('starts with a capital whatever comes first', () => {
    const nameless = findingOf({
      message: 'care-tier.above',
      subjects: [{ id: 'vigilia-prima-2', role: 'animal' }],
      data: { tier: { value: 2, unit: '1' }, keeperTier: { value: 1, unit: '1' } },
    });
    expect(sayFinding(metric, nameless)).toMatch(/^The lamp fish is harder to keep \(tier 2: some keepers succeed, not most\)/);
  });

  test('names several animals of a role in a row', () => {
    const crowded = findingOf({
      message: 'entry-order.pugnaciousEarly',
      subjects: [
        { id: 'wick', role: 'pugnacious' },
        { id: 'moll', role: 'after' },
        { id: 'choir', role: 'after' },
      ],
      data: { day: { date: '2027-03-02' } },
    });
    expect(plain(sayFinding(us, crowded))).toBe(
      "Wick would go in on March 2, 2027, before Moll's perch and Choir. It is pugnacious; let the peaceful ones settle first.",
    );
  });

  test('is in the units of the reader', () => {
    expect(plain(sayFinding(us, swallowing('wick', 'moll')))).toContain(
      'its mouth takes a body 0.79 in deep, and this one is 0.59 in deep',
    );
  });
});

test('a caution names the species, its water in the units of the reader', () => {
  const caution = {
    kind: 'venom',
    severity: 'painful',
    species: ['vigilia-prima', 'vigilia-secunda'],
    message: 'caution.venom.painful',
  } as const;
  expect(sayCaution(metric, { ...caution, species: [...caution.species] })).toMatch(
    /^Lamp fish and Moll's perch: venom .* \(not above 45°C\)/,
  );
  expect(sayCaution(us, { ...caution, species: [...caution.species] })).toContain('(not above 113°F)');
});

test.each<[Change, string, string]>([
  [{ kind: 'more-rock', massKg: 10 }, '10 kg more rock', '22 lb more rock'],
  [
    { kind: 'larger-tank', lengthCm: 254, widthCm: 127, waterL: 757.0823568 },
    'a tank 254 cm long and 127 cm wide with 757.1 L of water',
    'a tank 100 in long and 50 in wide with 200 gal of water',
  ],
  [{ kind: 'warmer-or-cooler', lowCel: 20, highCel: 25 }, 'water kept between 20°C and 25°C', 'water kept between 68°F and 77°F'],
  [
    { kind: 'more-experience', careTier: 3 },
    'a keeper who has kept tier 3 well for a year',
    'a keeper who has kept tier 3 well for a year',
  ],
  [{ kind: 'provision-made', provisions: ['tight-lid'] }, 'provision for a lid without gaps', 'provision for a lid without gaps'],
  [{ kind: 'without-resident', animal: 'wick' }, 'another home for Wick', 'another home for Wick'],
  [
    { kind: 'instead-of', species: ['vigilia-prima', 'vigilia-secunda'] },
    "having it instead of the lamp fish and Moll's perch",
    "having it instead of the lamp fish and Moll's perch",
  ],
])('the change %o', (change, inMetric, inUs) => {
  expect(plain(sayChange(metric, change))).toBe(inMetric);
  expect(plain(sayChange(us, change))).toBe(inUs);
});

test('the reason for a day', () => {
  expect(plain(sayOrderReason(metric, { message: 'order.gap', data: { gap: { value: 28, unit: 'd' } } }))).toBe(
    '28 days after the batch before it.',
  );
  expect(sayOrderReason(metric, { message: 'order.sameFamily', data: { kinGroup: { keys: ['inventidae'] } } })).toBe(
    'Kin go in on one day (Inventidae).',
  );
});

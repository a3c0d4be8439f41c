import { describe, expect, it } from 'vitest';
import { exact, PEACEFUL, recordWith, situationWith, TANK } from '../../tests/support/scene.js';
import { isoOf } from '../quantity/days.js';
import { rules } from '../rules/index.js';
import { libraryOf } from '../stock/library.js';
import { arrange } from './arrange.js';
import { groundOf } from './ground.js';

describe('a wait for an older tank', () => {
  // In at once it would claim 3.5 L within three years, over one and a half times the rock; 252 days later 3.0 L.
  const slow = recordWith('tardus-primus', {
    size: { entry: exact(2, 'cm') },
    growth: { asymptoticLength: exact(6.1, 'cm'), rate: exact(0.57, '/a') },
    conduct: {
      pugnacity: PEACEFUL,
      rockClaim: exact(4.5, 'L'),
      wayOfLiving: { value: 'perches-on-rock', basis: 'practice' },
      company: { kind: 'any', basis: 'practice' },
    },
    needs: { ...recordWith('x-x').needs, tankAge: exact(252, 'd') },
  });
  const situation = situationWith({
    date: '2027-03-01',
    tank: { ...TANK, rock: { envelope: { value: 2.1, unit: 'L' } }, cycledOn: '2027-03-04' },
    wishes: [{ species: 'tardus-primus' }],
  });

  it('lets in what would claim too much had it gone in before', () => {
    const ground = groundOf(situation, libraryOf([slow]), rules);
    const { excluding, batches } = arrange(
      ground,
      ground.lines.map((line) => ({ line, count: 1 })),
    );
    expect(excluding).toEqual([]);
    expect(batches.map(({ day }) => isoOf(day))).toEqual(['2027-11-11']);
  });
});

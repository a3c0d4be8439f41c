import { describe, expect, it } from 'vitest';
import { inventedSpecies } from '../../tests/support/invented.js';
import { libraryOf, recordOf } from './library.js';

describe('libraryOf', () => {
  it('holds every record by its id, the stand-ins and the release', () => {
    const standIns = { $schema: 'https://commensal.example/schema/1.0/stand-ins.schema.json', groups: [], errors: [] } as const;
    const library = libraryOf(
      [inventedSpecies('unus-primus'), inventedSpecies('unus-alter')],
      { ...standIns, groups: [], errors: [] },
      '2027.2',
    );
    expect([...library.records.keys()]).toEqual(['unus-primus', 'unus-alter']);
    expect(library.standIns?.groups).toEqual([]);
    expect(library.release).toBe('2027.2');
  });

  it('throws when two records have one id, and says which', () => {
    expect(() => libraryOf([inventedSpecies('unus-primus'), inventedSpecies('unus-alter'), inventedSpecies('unus-primus')])).toThrow(
      new RangeError('libraryOf: expected every id once, received "unus-primus" twice'),
    );
  });
});

describe('recordOf', () => {
  it('finds a record by its id, and none where there is none', () => {
    const library = libraryOf([inventedSpecies('unus-primus')]);
    expect(recordOf(library, 'unus-primus')?.id).toBe('unus-primus');
    expect(recordOf(library, 'unus-nullus')).toBeUndefined();
  });

  it('follows replaced records to the one in use', () => {
    const library = libraryOf([
      inventedSpecies('unus-vetus', { replacedBy: 'unus-medius' }),
      inventedSpecies('unus-medius', { replacedBy: 'duo-novus' }),
      inventedSpecies('duo-novus'),
    ]);
    expect(recordOf(library, 'unus-vetus')?.id).toBe('duo-novus');
  });

  it('stays with the last record there is where the successor is missing', () => {
    expect(recordOf(libraryOf([inventedSpecies('unus-vetus', { replacedBy: 'unus-nullus' })]), 'unus-vetus')?.id).toBe('unus-vetus');
  });

  it.each([[['unus-primus']], [['unus-primus', 'unus-alter']], [['unus-primus', 'unus-alter', 'unus-tertius']]])(
    'comes to an end where %s replace each other in a circle',
    (circle) => {
      const library = libraryOf(circle.map((id, at) => inventedSpecies(id, { replacedBy: circle[(at + 1) % circle.length] as string })));
      for (const id of circle) expect(circle).toContain(recordOf(library, id)?.id);
    },
  );
});

import { type Library, libraryOf } from '@commensal/core';
import { namesIn, type Voice } from '@commensal/report';
import { en } from '@commensal/report/en';
import type { SpeciesRecord } from '@commensal/schema';

/** English and metric, with the names of a record and of those beside it. Texts about records are for those who write them: English alone. */
export function voiceFor(record: SpeciesRecord, library: Library): Voice {
  const others = [...library.records.values()].filter(({ id }) => id !== record.id);
  const none = {
    $schema: 'https://commensal.example/schema/1.0/situation.schema.json',
    date: '2027-01-01',
    tank: { water: { value: 1, unit: 'L' } },
  } as const;
  return { catalogue: en, units: 'metric', names: namesIn(none, libraryOf([record, ...others]), 'en') };
}

/** Records checked by the precompiled validator, against JSON.parse of the same text. */
import { validate } from '@commensal/schema/validate/species';
import { records } from '@commensal/species-sample';
import { medians, per } from './measure.mjs';
import { goalRow, heading, row } from './table.mjs';

export function benchValidation() {
  const texts = records.map((record) => JSON.stringify(record));
  const parsed = texts.map((text) => JSON.parse(text));
  const invalid = parsed.filter((record) => !validate(record));
  if (invalid.length > 0) throw new Error(`bench: ${invalid[0].id} is not valid`);
  heading(`Validation of ${records.length} species records`);
  const time = medians({
    parse: () => {
      for (const text of texts) JSON.parse(text);
    },
    validate: () => {
      for (const record of parsed) validate(record);
    },
  });
  row('time a record: JSON.parse / validator', `${per(time.parse, records.length)} / ${per(time.validate, records.length)}`);
  goalRow('validator over JSON.parse of the same text', time.validate / time.parse, { atMost: 0.35 });
}

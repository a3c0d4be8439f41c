/** What is wrong with ten thousand records, by themselves and together, against JSON.parse of the same texts. */
import { collectionProblems, recordPath, recordProblems } from '@commensal/records';
import { speciesProblems } from '@commensal/schema';
import { bibliography, records, standIns } from '@commensal/species-sample';
import { medians, per, randomFrom } from './measure.mjs';
import { goalRow, heading, row } from './table.mjs';

const MANY = 10_000;
/** One record in so many has its greatest length tenfold. */
const WRONG_ONE_IN = 50;
/** Shares of the body are drawn within this much of those of the sample: no check minds. */
const SPREAD = 0.01;

const letters = (number) => [...String(number)].map((digit) => 'abcdefghij'[digit]).join('');

/** A copy in which every measured share of the body is drawn anew; what was imputed stays what its group has. */
function varied(value, draw) {
  if (Array.isArray(value)) return value.map((item) => varied(item, draw));
  if (typeof value !== 'object' || value === null) return value;
  const isShare = value.basis === 'measured' && value.unit === '1' && typeof value.value === 'number' && value.low === undefined;
  const factor = isShare ? 1 + SPREAD * (2 * draw() - 1) : 1;
  return Object.fromEntries(
    Object.entries(value).map(([key, member]) => [key, isShare && key === 'value' ? member * factor : varied(member, draw)]),
  );
}

/** Invented species, each drawn from one of the sample under a name of its own. */
function drawn(draw, index) {
  const base = records[Math.floor(draw() * records.length)];
  const { genus } = base.taxon;
  const species = `inventa${letters(index)}`;
  const record = varied(base, draw);
  record.id = `${genus.toLowerCase()}-${species}`;
  record.taxon.scientificName = `${genus} ${species}`;
  delete record.taxon.taxonID;
  delete record.synonyms;
  if (index % WRONG_ONE_IN === 0) {
    const { maximum } = record.size;
    for (const end of ['value', 'low', 'high']) if (maximum[end] !== undefined) maximum[end] *= 10;
  }
  return { file: recordPath(record), record };
}

export function benchRecordProblems() {
  const draw = randomFrom(20270301);
  const entries = Array.from({ length: MANY }, (_, index) => drawn(draw, index));
  const texts = entries.map(({ record }) => JSON.stringify(record));
  const context = { bibliography, standIns, otherIds: records.map(({ id }) => id) };
  const alone = entries.flatMap(({ record }) => [...speciesProblems(record), ...recordProblems(record, context)]);
  const slips = alone.filter(({ code, pointer }) => code === 'tenfold-slip' && pointer === '/size/maximum');
  if (slips.length !== MANY / WRONG_ONE_IN || alone.length !== slips.length)
    throw new Error(`bench: expected ${MANY / WRONG_ONE_IN} slips and nothing else, found ${slips.length} among ${alone.length} problems`);
  heading(`Problems of ${MANY} generated records, one in ${WRONG_ONE_IN} wrong`);
  const time = medians(
    {
      parse: () => {
        for (const text of texts) JSON.parse(text);
      },
      schema: () => {
        for (const { record } of entries) speciesProblems(record);
      },
      plausible: () => {
        for (const { record } of entries) recordProblems(record, context);
      },
      together: () => collectionProblems(entries, context),
    },
    { rounds: 5 },
  );
  const all = time.schema + time.plausible + time.together;
  row(
    'time for all: JSON.parse / schema / plausibility / together',
    [time.parse, time.schema, time.plausible, time.together].map((seconds) => per(seconds)).join(' / '),
  );
  goalRow('schema, plausibility and together over JSON.parse of the same text', all / time.parse, { atMost: 6 });
}

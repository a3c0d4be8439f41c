import { inDocumentOrder, type Problem } from '@commensal/schema';
import { type Collection, type CollectionCheck, collectionOf, type RecordEntry, type Told } from './among-records/entry.js';
import { kinApart } from './among-records/kin-apart.js';
import { oneSidedPartner, replacedInACircle, unknownRecord } from './among-records/mentions.js';
import { filePlace, genusInTwoFamilies } from './among-records/places.js';
import { duplicateIds, sameTaxon, synonymsElsewhere } from './among-records/same-species.js';
import { unlikeGenus } from './among-records/unlike-genus.js';
import { unusedSources } from './among-records/unused-source.js';
import { withExceptions } from './exceptions.js';
import type { ProblemContext } from './problem-context.js';

const CHECKS: readonly CollectionCheck[] = [
  sameTaxon,
  synonymsElsewhere,
  genusInTwoFamilies,
  filePlace,
  unknownRecord,
  oneSidedPartner,
  replacedInACircle,
  unlikeGenus,
  kinApart,
];

const withFile = ({ file }: RecordEntry, problem: Problem): Problem => ({ ...problem, file });

function problemsOf(entry: RecordEntry, told: readonly Told[]): Problem[] {
  if (told.length === 0 && entry.record.exceptions === undefined) return [];
  const problems = withExceptions(
    entry.record,
    told.map(({ problem }) => problem),
    'records',
  );
  return inDocumentOrder(entry.record, problems).map((problem) => withFile(entry, problem));
}

function grouped(collection: Collection, context: ProblemContext): Map<RecordEntry, Told[]> {
  const byEntry = new Map<RecordEntry, Told[]>();
  for (const check of CHECKS) {
    for (const told of check(collection, context)) {
      const before = byEntry.get(told.entry);
      if (before === undefined) byEntry.set(told.entry, [told]);
      else before.push(told);
    }
  }
  return byEntry;
}

/**
 * What shows only between records: ids, taxa and names that stand for two, files in the wrong place, ids of which there is no record, partners
 * that do not name each other, a body unlike those of its genus. In the order of the entries, each problem with its file; entries of the
 * bibliography that nothing uses come last, and only where the context says what else cites them.
 *
 * Hand in all records, not only those that changed: what is missing counts as not there. A second record with an id that is taken is told, and
 * otherwise left out.
 *
 * @example
 * collectionProblems([{ file: 'grammatidae/gramma-loreto.species.json', record }], { bibliography, standIns }) // []
 */
export function collectionProblems(entries: readonly RecordEntry[], context: ProblemContext): Problem[] {
  const collection = collectionOf(entries);
  const told = grouped(collection, context);
  const twice = new Map(duplicateIds(entries).map(({ entry, problem }) => [entry, problem]));
  return [
    ...entries.flatMap((entry) => {
      const duplicate = twice.get(entry);
      return duplicate === undefined ? problemsOf(entry, told.get(entry) ?? []) : [withFile(entry, duplicate)];
    }),
    ...unusedSources(entries, context),
  ];
}

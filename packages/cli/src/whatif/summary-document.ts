import type { Counted, Group, OutputSummary, StudySummary } from '@commensal/core';
import type { ColumnSummary, Study, StudyColumn, StudyManifest, StudySummaryDocument, VariableGroup } from '@commensal/schema';
import { schemaOf } from '../versions.js';

/** A summary as a document: figures that there are none of are left out, places of words are words. */
export function summaryDocument(
  { scenarios, invalid, outputs }: StudySummary,
  manifest: StudyManifest,
  { design }: Study,
): StudySummaryDocument {
  const byName = new Map(manifest.columns.map((column) => [column.name, column]));
  return {
    $schema: schemaOf('study-summary'),
    ...(manifest.title === undefined ? {} : { title: manifest.title }),
    design: design.kind,
    replicates: manifest.replicates,
    scenarios,
    invalid,
    outputs: outputs.map((output) => columnOf(output, byName)),
    versions: manifest.versions,
  };
}

function columnOf(
  { column, codes, told, mean, standardDeviation, standardError, least, greatest, quantiles, by, sensitivity }: OutputSummary,
  columns: ReadonlyMap<string, StudyColumn>,
): ColumnSummary {
  const points = (quantiles ?? []).filter(({ value }) => !Number.isNaN(value));
  return {
    column: column.name,
    description: column.description,
    kind: column.kind,
    ...(column.unit === undefined ? {} : { unit: column.unit }),
    ...(codes === undefined ? {} : { codes: codes.map(({ code, ...rest }) => ({ code, ...shareOf(rest) })) }),
    ...(told === undefined ? {} : { told: shareOf(told) }),
    ...figures({ mean, standardDeviation, standardError, least, greatest }),
    ...(points.length === 0 ? {} : { quantiles: [...points] }),
    by: by.map(({ variable, groups }) => ({
      variable,
      groups: groups.map((group) => groupOf(group, columns.get(variable))) as [VariableGroup, VariableGroup, ...VariableGroup[]],
    })),
    ...(sensitivity === undefined
      ? {}
      : {
          sensitivity: sensitivity.map(({ variable, first, total, firstError, totalError }) => ({
            variable,
            first,
            total,
            firstError,
            totalError,
          })),
        }),
  };
}

const shareOf = ({ count, of, share, low, high }: Counted): { count: number; of: number; share?: number; low: number; high: number } => ({
  count,
  of,
  ...(Number.isNaN(share) ? {} : { share }),
  low,
  high,
});

function groupOf({ value, from, to, scenarios, counted, mean }: Group, column: StudyColumn | undefined): VariableGroup {
  const word = value === undefined ? undefined : column?.codes?.[value];
  return {
    ...(word === undefined ? figures({ value, from, to }) : { word }),
    scenarios,
    ...(counted === undefined ? {} : { counted: shareOf(counted) }),
    ...figures({ mean }),
  };
}

/** Those of some figures that there are. */
function figures<Name extends string>(of: Readonly<Record<Name, number | undefined>>): Partial<Record<Name, number>> {
  return Object.fromEntries(Object.entries(of).filter(([, value]) => value !== undefined && !Number.isNaN(value))) as Partial<
    Record<Name, number>
  >;
}

import type { Problem, SpeciesRecord, StandIns, Bibliography } from '@commensal/schema';

/** One mistake, made by small edits of records of the sample. */
export interface Mistake {
  readonly code: string;
  /** What somebody did, in a few words. */
  readonly says: string;
  readonly edits: readonly Edit[];
  /** Where it must be found; `{text}` stands for the index of the entry that holds the text. */
  readonly pointer: string;
  /** Words that the advice must hold. */
  readonly fix: string;
  /** Id of the record it must be found in, where that is not the one edited last. */
  readonly of?: string;
  /** The file it must be found in, where that is not the usual one of a record. */
  readonly file?: string;
}

export interface Edit {
  readonly record?: string;
  readonly patch?: readonly { readonly op: string; readonly path: string; readonly value?: unknown; readonly times?: number }[];
  readonly text?: readonly [from: string, to: string];
  readonly empty?: boolean;
  readonly copyTo?: string;
  readonly moveTo?: string;
  readonly bibliography?: unknown;
}

export interface Sample {
  readonly records: readonly SpeciesRecord[];
  readonly bibliography: Bibliography;
  readonly standIns: StandIns;
}

/** Functions of the packages that are called, by their names. */
export type Tools = Readonly<Record<string, unknown>>;

export function fileOf(mistake: Mistake, sample: Sample, tools: Tools): string;
export function pointerOf(mistake: Mistake, sample: Sample, tools: Tools): string;
export function foundIn(mistake: Pick<Mistake, 'edits'>, sample: Sample, tools: Tools): Problem[];

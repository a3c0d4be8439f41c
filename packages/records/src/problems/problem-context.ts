import type { Bibliography, StandIns } from '@commensal/schema';

/** What records are judged by, besides themselves. */
export interface ProblemContext {
  readonly bibliography: Bibliography;
  readonly standIns: StandIns;
  /**
   * Ids of records that are there besides those handed in: of a release that a few new records are checked against, of files that are no
   * valid records as yet (`idOfFile`).
   */
  readonly otherIds?: readonly string[];
  /**
   * Keys of the bibliography that are cited outside of records: by rules, guides, the stand-ins' own sources. Only where this is given, if
   * need be as an empty list, does `collectionProblems` look for entries that nothing uses: with a part of the records it cannot be told.
   */
  readonly cited?: readonly string[];
  /** Name of the file that holds the bibliography, for problems in it; `bibliography.json` where left out. */
  readonly bibliographyFile?: string;
}

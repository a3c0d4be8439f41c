/** Where a problem shows: in the call of a command, the text of a file, a table of measurements, a situation, a study, one record, between records, or in the form of a record. */
export type FoundIn = 'call' | 'file' | 'table' | 'situation' | 'study' | 'record' | 'records' | 'form';

/** What a code of a problem means: the same words stand on its page of the documentation. */
export interface RecordCode {
  /** error: it is wrong. warning: it is most likely wrong and wants a look, or only another form. */
  readonly level: 'error' | 'warning';
  readonly foundIn: FoundIn;
  /** One sentence: what is wrong. */
  readonly says: string;
  /** A few sentences: what comes of it, or why it is mostly a mistake. */
  readonly matters: string;
  /** A few sentences: what to do. */
  readonly repair: string;
  /** When it is right as it stands; without it, `exceptions` of a record cannot say so. */
  readonly exception?: string;
}

/** Codes by name. */
export type Codes = Readonly<Record<string, RecordCode>>;

type Level = RecordCode['level'];

/** How a group of codes is written down: says, matters, repair and, where there can be one, the exception. */
export type Rows = Readonly<Record<string, readonly [says: string, matters: string, repair: string, exception?: string]>>;

/** Codes of one level that show at one place. */
export const codesOf = (foundIn: FoundIn, level: Level, rows: Rows): Codes =>
  Object.fromEntries(
    Object.entries(rows).map(([code, [says, matters, repair, exception]]) => [
      code,
      { level, foundIn, says, matters, repair, ...(exception === undefined ? {} : { exception }) },
    ]),
  );

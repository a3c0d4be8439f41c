/** What a figure says of itself besides its numbers and words, in the order in which records hold it. A test holds the list against the schema. */
export const QUALIFIERS: readonly string[] = [
  'unit',
  'interval',
  'lengthType',
  'per',
  'at',
  'basis',
  'source',
  'formula',
  'from',
  'searched',
  'note',
];

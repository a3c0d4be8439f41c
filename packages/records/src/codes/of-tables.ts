import { type Codes, codesOf } from './code.js';

/** Of tables of measurements that are to be added to records. */
export const OF_TABLES: Codes = codesOf('table', 'error', {
  'bad-quotes': [
    'The quotes of a cell do not close as they should.',
    'All that follows would be one cell.',
    'End a cell in quotes with one, and write a quote in it twice.',
  ],
  'duplicate-column': ['Two columns have one name.', 'One of the two would be lost.', 'Keep one.'],
  'duplicate-row': [
    'Two rows give the same field of the same record.',
    'A record holds one figure in a field.',
    'Keep the better of the two.',
  ],
  'missing-column': ['A column that every row needs is missing.', 'A figure without it cannot be placed or weighed.', 'Add it.'],
  'no-rows': ['The table holds no measurement.', 'Below its header each row is one.', 'Fill it, or name another table.'],
  'no-species': ['A row names no species.', 'It must have an id or a scientific name.', 'Fill one of the two.'],
  'not-a-number': [
    'A cell that should hold a number holds something else.',
    'Numbers have a point for their decimals, and nothing else beside them.',
    'Write the number alone; units have a column of their own.',
  ],
  'record-wrong': [
    'A record that a figure is for has mistakes of its own.',
    'A record must be right before figures are added to it.',
    'Run `commensal records check` on it first.',
  ],
  'too-many-cells': [
    'A row has more cells than the header.',
    'Nobody knows which column the rest belongs to.',
    'Put quotes around cells that hold the character between cells.',
  ],
  'unknown-column': [
    'A column has a name that is not known.',
    'What it holds would be lost.',
    'Take the name that the message offers, or move what it holds to the column `note`.',
  ],
  'unknown-field': [
    'A row names a field that takes no measurement.',
    'Only fields with a number and a unit do.',
    'Choose one of those that the message names.',
  ],
});

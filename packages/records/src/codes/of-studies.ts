import { type Codes, codesOf } from './code.js';

/** Of what-if studies and their runs: no check of records gives them. */
export const OF_STUDIES: Codes = {
  ...codesOf('call', 'error', {
    'no-study': ['No study is named.', 'There is nothing to run.', 'Name the file of a study, or a folder with `--merge`.'],
    'too-much': ['A study is named beside `--merge`.', 'The folder of a run holds its study.', 'Leave the study out.'],
    'wrong-format': [
      'The format does not go with what is asked for.',
      'Rows and summaries have formats of their own.',
      'Choose one that is named.',
    ],
    'wrong-shard': [
      'A shard is not told as its number and how many there are.',
      'Which parts to make would be a guess.',
      'Write `--shard 3/8`, counted from 1.',
    ],
    'no-table': [
      'The design of a study is `given`, and no table gives its scenarios.',
      'There is nothing to run.',
      'Name the table with `--scenarios`.',
    ],
    'two-designs': [
      'A table gives scenarios to a study that lays them out itself.',
      'One of the two would be left out in silence.',
      'Leave one of them out.',
    ],
    'no-manifest': [
      'A folder holds no manifest of a run.',
      'Parts are read by what the manifest says of them.',
      'Name the folder that was given as `--out`.',
    ],
    'not-a-folder': ['What was named as a folder is a file, or lies in one.', 'A run makes many files.', 'Name another.'],
    'another-study': [
      'The folder holds parts of another study, or of one run with other records or versions.',
      'Parts that do not belong together would be summed up as if they did.',
      'Name another folder, or go on with what made these parts.',
    ],
    'parts-there': [
      'Parts of the run are there already.',
      'They are kept only where that is asked for.',
      'Give `--resume`, or name another folder.',
    ],
    'parts-missing': [
      'Parts of a run are missing.',
      'A summary of the rest would pull all shares.',
      'Run the study again with `--resume`.',
    ],
    'wrong-part': [
      'A part is cut short, damaged or of something else.',
      'A part has a row for each of its scenarios.',
      'Remove it, and run the study again with `--resume`.',
    ],
    'unknown-format': [
      'The ending of a table tells no format.',
      'How to read it would be a guess.',
      'Give it the ending .csv, .ndjson or .parquet.',
    ],
    'empty-table': ['A table of scenarios has no rows.', 'There is nothing to run.', 'Add some.'],
    'not-csv': [
      'A line of a table is no CSV.',
      'What stands where would be a guess.',
      'Correct the line: as many cells as the first has names.',
    ],
  }),
  ...codesOf('study', 'error', {
    'no-such-place': [
      'A variable goes to a place that is not there.',
      'Nothing would vary.',
      'Correct the pointer, or write the place into the situation of the study.',
    ],
    'wrong-place': [
      'A variable goes to a place that takes something else.',
      'Numbers go to figures with a unit, days and counts, words to words.',
      'Do what the message says: draw something else, or point elsewhere.',
    ],
    'set-twice': ['Two variables go to one place.', 'Only one of them would count.', 'Take the place out of one.'],
    'wrong-number': [
      'There are not as many weights as values.',
      'Which weight belongs to what would be a guess.',
      'Give one for each, or none.',
    ],
    'too-many-variables': [
      'More varies than the design has dimensions.',
      'Sequences are tabulated for so many.',
      'Let fewer vary, or choose latin-hypercube or monte-carlo.',
    ],
  }),
};

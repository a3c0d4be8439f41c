import { type Codes, codesOf } from './code.js';

/** Of calls of the command line and of situations: no check of records gives them. */
export const OF_CALLS: Codes = {
  ...codesOf('call', 'error', {
    'far-day': [
      'A day lies too far away to be meant.',
      'Nothing is computed over centuries: a slip in the year would make it so.',
      'Correct the year.',
    ],
    'already-recorded': [
      'The species has a record.',
      'A species has one record; a second one would leave readers to choose.',
      'Change the record that is there.',
    ],
    'already-there': [
      'A file stands where the new record would be written.',
      'A new record takes the place of nothing.',
      'Change the record that is there, or name another place with `--out`.',
    ],
    'folder-exists': [
      'The folder that a result was to make is there already.',
      'Files of another run would stay among the new ones.',
      'Name another folder, or remove it first.',
    ],
    'no-folder': ['What was asked for needs a folder to write to.', 'It is several files.', 'Name a folder with `--out`.'],
    'no-records': [
      'A folder holds no species records.',
      'Records are found by their names, which end in .species.json.',
      'Name the folder that holds them, or one above it.',
    ],
    'no-commit': [
      'The git repository has no commit yet.',
      '`--changed` tells of what changed since a commit.',
      'Commit something, or check without `--changed`.',
    ],
    'no-main-line': [
      'The git repository has no branch that could be the main line.',
      '`--changed` compares with where your branch left the main line.',
      'Name what to compare with: `--changed=REF`.',
    ],
    'no-repository': [
      'The folder is in no git repository.',
      '`--changed` asks git what has changed.',
      'Go into the repository, or check without `--changed`.',
    ],
    'no-such-commit': [
      'The git repository has no such commit, branch or tag.',
      'What follows `--changed` is taken for one, be it meant for a file.',
      'Write `--changed=REF`, and files in front of a `--changed` without one.',
    ],
    'no-such-path': [
      'A file or folder that was named is not there.',
      'Records that are not looked at would pass for right.',
      'Check the name, and from where it is counted.',
    ],
    'no-such-folder': ['A folder is not there.', 'Without it there is nothing to read.', 'Check the name, and from where it is counted.'],
    'same-file': [
      'The result would be written over what it is made of.',
      'A result needs a file of its own, or the input would be lost.',
      'Name another file for the result.',
    ],
    'too-many-numbers': [
      'The wishes ask for more numbers of animals than can be compared.',
      'Each number of each wish is a case of its own, and the best set is found among all of them.',
      'Narrow the counts, or plan in two parts.',
    ],
    'unknown-rule': [
      'There is no rule of that name.',
      'Rules are named by their ids.',
      'Take the id that the message offers; `commensal rules` lists all.',
    ],
  }),
  ...codesOf('situation', 'error', {
    'needs-one-of': ['None of several properties is given.', 'One of them must be there, or nothing is said.', 'Add it.'],
    'too-many': ['A list has too many entries.', 'More than that is not looked at.', 'Take some out.'],
    'wrong-count': [
      'A count in a report is not that of its list.',
      'Who reads the summary alone would be misled.',
      'Correct the count, or the list.',
    ],
    'later-property': [
      'A record holds a property of a later version of its schema.',
      'This version does not know it, and leaves it out.',
      'Use a later version, or take the property out.',
    ],
    'not-carried': [
      'Something of an older record has no place in this version of the schema.',
      'It is kept under `extensions`, where no rule reads it.',
      'Give it a place, or take it out.',
    ],
    'date-order': ['Two days are in the wrong order.', 'What ends before it begins cannot be computed.', 'Correct the day that is wrong.'],
    'unknown-animal': [
      'An animal is named that the situation does not have.',
      'Events and findings that were accepted name animals by their ids.',
      'Take the id that the message offers, or add the animal.',
    ],
    'unknown-species': [
      'There is no record of that species.',
      'Without a record nothing can be said of an animal.',
      'Take the id that the message offers, or write the record.',
    ],
  }),
};

import { type Codes, codesOf } from './code.js';

/** Of what shows only between records. */
export const OF_RECORDS: Codes = {
  ...codesOf('records', 'error', {
    'file-place': [
      'The file does not stand where its family and id say.',
      'A record stands in a folder named by its family, in a file named by its id: that is how it is found.',
      'Move or rename the file, or correct the family.',
    ],
    'same-taxon': [
      'Two records have one taxon identifier.',
      'Mostly it was copied along; else there are two records of one species.',
      'Look up the identifier of each; where they are one species, let `replacedBy` of the older record name the other.',
    ],
    'synonyms-of-each-other': [
      'Two records name each other as synonyms.',
      'Then each is the other, and whoever looks for one finds two.',
      'Look up which name is accepted, and let `replacedBy` of the other record name it; where they are two species, take both synonyms out.',
    ],
    'synonym-is-a-record': [
      'A synonym is the name of another record.',
      'Whoever looks for the name finds two records.',
      'Take it out; where they are one species, let `replacedBy` of the record that goes out of use name the other.',
    ],
    'genus-in-two-families': [
      'One genus stands in two families.',
      'Kin are batched by family, and stand-ins taken from it.',
      'Write the family that the register has for the genus, in all records.',
    ],
    'replaced-in-a-circle': [
      'Records are replaced by each other in a circle.',
      'Who follows the replacements never comes to a record that is in use.',
      'Take `replacedBy` and `deprecatedIn` out of the record that stays.',
    ],
    'unknown-record': [
      'A species is named of which there is no record.',
      'Rules look partners, look-alikes and replacements up by their ids.',
      'Take the id that the message offers, or write the record.',
      'Where the species is known by name, and nobody has written its record yet.',
    ],
  }),
  ...codesOf('records', 'warning', {
    'synonym-twice': [
      'One synonym stands in two records.',
      'Whoever looks for the name finds two records.',
      'Look up whose synonym it is.',
      'Where the name was given to both species.',
    ],
    'one-sided-partner': [
      'A partner does not name it in turn.',
      'Living together has two sides: where only one says so, a rule that looks at the other takes its guest for prey.',
      'Add it there, with the kind that fits, or take it out here.',
      'Where the one seeks the other, and the other is only borne with.',
    ],
    'kin-apart': [
      'It is not named as kin of its genus.',
      'Kin go in on one day and are held to fight: a record without a kin group counts as kin of its whole family, and not of relatives that name one.',
      'Write the kin group that the others of its genus have.',
      'Where it lives otherwise than its genus, and does not meet it as a rival.',
    ],
    'unlike-genus': [
      'A body is unlike those of the other records of its genus.',
      'Nine of ten species lie within 19 % of their genus; a quarter off is mostly a slip, or a share of total length given as one of standard length.',
      'Look at the number and at the length it is a share of (`per`).',
      'Where the species really is unlike its genus.',
    ],
    'unused-source': [
      'An entry of the bibliography is used by nothing.',
      'It credits work that nothing rests on, or a figure has lost its source.',
      'Name it where it was used, or take it out.',
    ],
  }),
};

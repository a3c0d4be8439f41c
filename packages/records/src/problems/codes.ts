/** Where a problem shows: in the text of a file, the shape of a document, one record, between records, or in a call of the command line. */
export type FoundIn = 'file' | 'document' | 'record' | 'records' | 'call';

/** A code that problems carry; each has a page in docs/problems. */
export interface ProblemCode {
  readonly code: string;
  /** `error`: it is wrong. `warning`: it is most likely wrong, and a person should look. */
  readonly level: 'error' | 'warning';
  readonly foundIn: FoundIn;
  /** Whether `exceptions` of a record can say that it is right as it stands. */
  readonly canBeExcepted: boolean;
  /** One line, without a full stop. */
  readonly title: string;
}

type Row = readonly [code: string, title: string];

const of = (foundIn: FoundIn, level: ProblemCode['level'], canBeExcepted: boolean, rows: readonly Row[]): ProblemCode[] =>
  rows.map(([code, title]) => ({ code, level, foundIn, canBeExcepted, title }));

/**
 * Every code, in the order of where they show.
 *
 * @example
 * problemCodes.find(({ code }) => code === 'closed-mouth')?.level; // 'error'
 */
export const problemCodes: readonly ProblemCode[] = [
  ...of('call', 'error', false, [
    ['no-such-file', 'There is no file of that name'],
    ['not-a-file', 'A folder is named where a file is wanted'],
    ['unreadable', 'The file cannot be read'],
    ['no-such-folder', 'There is no folder of that name'],
    ['no-records', 'The folder holds no species records'],
    ['same-file', 'The result would overwrite what it is made of'],
    ['far-day', 'The day is too far away to be meant'],
    ['too-many-numbers', 'The wishes ask for more numbers than can be compared'],
    ['unknown-rule', 'There is no rule of that name'],
    ['unknown-species', 'There is no record of that species'],
  ]),
  ...of('file', 'error', false, [
    ['not-utf-8', 'The file is not text in UTF-8'],
    ['empty-file', 'The file is empty'],
    ['not-json', 'The file is not JSON'],
    ['duplicate-key', 'A name stands twice in one object'],
  ]),
  ...of('document', 'error', false, [
    ['missing-property', 'Something that must be given is missing'],
    ['unknown-property', 'A property that documents of this kind do not have'],
    ['needs-also', 'A property needs another one beside it'],
    ['no-number', 'A quantity has no number'],
    ['needs-one-of', 'One of several properties must be given'],
    ['not-allowed-here', 'A property does not go with the basis beside it'],
    ['wrong-type', 'A value of the wrong type'],
    ['wrong-value', 'A value that has to be another one'],
    ['not-in-list', 'A word that is not among those allowed'],
    ['wrong-form', 'Text that is not written in the form it needs'],
    ['too-small', 'A number below its range'],
    ['too-large', 'A number above its range'],
    ['too-short', 'Text that is empty'],
    ['too-long', 'Text that is too long'],
    ['too-few', 'A list or an object with too few entries'],
    ['too-many', 'A list or an object with too many entries'],
    ['duplicate-item', 'The same entry twice in a list'],
    ['band-order', 'The ends of a band in the wrong order, or a value outside its band'],
    ['date-order', 'Two days in the wrong order'],
    ['no-such-day', 'A day that is not in the calendar'],
    ['unknown-animal', 'An animal that is not in the document'],
    ['name-mismatch', 'Id, genus and scientific name do not agree'],
    ['source-not-listed', 'A source is used that the record does not list'],
    ['source-not-used', 'A source is listed that no figure uses'],
    ['duplicate-id', 'Two of a kind have one id'],
  ]),
  ...of('record', 'error', false, [
    ['family-ending', 'The family is not spelt like the name of a family'],
    ['own-name-as-synonym', 'The name of the species among its synonyms'],
    ['vernacular-twice', 'A common name twice in one language'],
    ['names-itself', 'A record names itself as a partner, look-alike or replacement'],
    ['release-order', 'Out of use before it was added'],
    ['unknown-source', 'A source that the bibliography does not have'],
    ['food-not-listed', 'A food is spoken of that the diet does not have'],
    ['temperature-outside-limits', 'The temperature it should have lies outside its limits'],
    ['gravity-for-salinity', 'A specific gravity given as salinity'],
    ['inverted-ratio', 'A ratio of lengths is upside down'],
    ['ratio-order', 'Total over fork length above total over standard length'],
    ['length-type-of-form', 'A type of length that this form of animal does not have'],
    ['closed-mouth', 'The width of a closed mouth used as gape'],
    ['defence-below-depth', 'Less deep with its spines spread than without'],
    ['fish-eating-diet', 'Fish eating and foods contradict each other'],
    ['unknown-exception', 'An exception for a code that cannot be excepted, or that there is none of'],
  ]),
  ...of('record', 'error', true, [
    ['tenfold-slip', 'A figure so far off that its decimal point or unit must be wrong'],
    ['swapped-figures', 'Two figures have changed places'],
    ['longer-than-maximum', 'A length above the greatest on record'],
    ['entry-above-adult', 'Longer when it enters than when it is grown'],
  ]),
  ...of('record', 'warning', true, [
    ['far-below-maximum', 'The usual adult length lies far below the greatest'],
    ['length-type-missing', 'A length that does not say which length it is'],
    ['asymptotic-length', 'Asymptotic and greatest length do not go together'],
    ['growth-performance', 'No fish of that length grows at that rate'],
    ['lengths-apart', 'Sources disagree how long the species grows'],
    ['weights-apart', 'Sources disagree how heavy the species is'],
    ['weight-against-shape', 'The weight does not go with depth and width'],
    ['unlike-relatives', 'A shape unlike that of its genus or family'],
    ['wider-than-deep', 'A body wider than deep'],
    ['gape-against-jaw', 'The gape does not go with the lower jaw'],
    ['imputed-otherwise', 'A stand-in that is not the figure of its group'],
    ['long-snout-missing', 'A long-snouted species without its flag'],
    ['defence-missing', 'A spiny or inflating species without its depth in defence'],
    ['hazard-missing', 'A species of a dangerous group without its hazard'],
    ['synonym-form', 'A synonym that is not written like a scientific name'],
    ['scientific-as-vernacular', 'A scientific name among the common names'],
    ['diet-against-mode', 'What it eats does not go with how it feeds'],
    ['diet-without-harm', 'It eats what is kept, and is said to harm nothing of the kind'],
    ['fish-eating-mode', 'It lives on fishes and feeds in a way that takes none'],
    ['fish-eating-gape', 'Fish eating and the class of its gape do not go together'],
    ['gape-against-mode', 'The class of its gape does not go with how it feeds'],
    ['tier-without-provisions', 'Hard to keep without saying what is needed'],
    ['captive-bred-harder', 'Tank-raised animals harder to keep than wild ones'],
    ['provision-at-odds', 'A provision that the rest of the record speaks against'],
    ['company-at-odds', 'Company, numbers and pugnacity do not go together'],
    ['beyond-usual', 'A figure many times beyond what any animal has'],
  ]),
  ...of('record', 'warning', false, [['exception-not-needed', 'An exception that nothing needs']]),
  ...of('records', 'error', false, [
    ['file-place', 'The file does not stand where its family and id say'],
    ['same-taxon', 'Two records of one taxon'],
    ['synonyms-of-each-other', 'Two records name each other as synonyms'],
    ['synonym-is-a-record', 'A synonym that is the name of another record'],
    ['genus-in-two-families', 'One genus in two families'],
    ['replaced-in-a-circle', 'Records replaced by each other in a circle'],
  ]),
  ...of('records', 'error', true, [['unknown-record', 'A species is named of which there is no record']]),
  ...of('records', 'warning', true, [
    ['synonym-twice', 'One synonym in two records'],
    ['one-sided-partner', 'A partner that does not name it in turn'],
    ['unlike-genus', 'A body unlike those of the other records of its genus'],
  ]),
  ...of('records', 'warning', false, [['unused-source', 'An entry of the bibliography that nothing uses']]),
];

const byCode = new Map(problemCodes.map((entry) => [entry.code, entry]));

/**
 * What is known of a code; undefined where it is none of ours.
 *
 * @example
 * problemCode('duplicate-key')?.title; // 'A name stands twice in one object'
 */
export const problemCode = (code: string): ProblemCode | undefined => byCode.get(code);

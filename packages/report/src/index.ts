/** Sentences and text for what was computed. A language is a subpath of its own: `@commensal/report/en`. */
export { type Catalogue, has, say, type Slots } from './catalogue.js';
export { type Block, heading, item, line, markdownPage, paragraph, type Section, textPage, title } from './blocks.js';
export { checkMarkdown, checkText } from './check-text.js';
export { cited, citedShort } from './citation.js';
export { type Depth, DEPTHS, type Grounds, type TextOptions } from './depth.js';
export { type Figure, figureSlots, figuresOf, type Told } from './figures.js';
export { cautionsText, findingsText, summaryText } from './findings-text.js';
export { type Group, grouped, sayGroup } from './groups.js';
export { type Names, namesIn } from './names.js';
export { chosenList, planInParts, planMarkdown, planText } from './plan-text.js';
export { type References, referencesIn } from './references.js';
export { sayHow, sayQuestion } from './question.js';
export { sayRecorded } from './recorded.js';
export { rulePage } from './rule-page.js';
export { rulesText, ruleText } from './rules-text.js';
export { sayCaution, sayChange, sayFinding, sayOrderReason } from './sentences.js';
export { capital, sayAnimal, sayDate, sayList, sayNumber, sayQuantity, saySpecies, sayWord, type Voice } from './voice.js';
export { type Sentence, withSentences } from './with-sentences.js';

export { entryGap, type EntryGapMeasure } from './entry-gap.js';

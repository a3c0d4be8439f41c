export { ammoniaMayBeAnError, nitrogen, type NitrogenMeasure, peakAmmonia } from './nitrogen.js';
export type { PeakMeasure } from './peak.js';
export type { LoadMeasure } from './steady.js';
export type { WarmMeasure } from './warmth.js';

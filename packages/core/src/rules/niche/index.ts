export { niche, type NicheMeasure } from './niche.js';

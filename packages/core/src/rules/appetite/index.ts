export { appetite, type AppetiteMeasure, type Threat } from './appetite.js';
export type { Aim, Kept } from './aims.js';

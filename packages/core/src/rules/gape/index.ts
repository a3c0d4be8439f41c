export { gape, type GapeMeasure, judgeGape } from './gape.js';
export { type Interest, interestIn } from './interest.js';
export { lengthOn } from './pairing.js';

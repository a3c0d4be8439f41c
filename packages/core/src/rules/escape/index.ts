export { escaping, type EscapeMeasure } from './escape.js';

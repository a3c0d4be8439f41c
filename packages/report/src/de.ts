import type { Catalogue } from './catalogue.js';
import { messages } from './generated/de.js';

/** German. */
export const de: Catalogue = { language: 'de', messages };

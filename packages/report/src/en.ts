import type { Catalogue } from './catalogue.js';
import { messages } from './generated/en.js';

/** English. */
export const en: Catalogue = { language: 'en', messages };

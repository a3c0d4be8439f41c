import type { Catalogue } from './catalogue.js';
import { messages } from './generated/ja.js';

/** Japanese. */
export const ja: Catalogue = { language: 'ja', messages };

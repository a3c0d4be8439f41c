import { describeRule, type AnyRule, type Library } from '@commensal/core';
import type { TextOptions } from '@commensal/report';
import { bibliography } from '@commensal/species-sample';
import type { SharedOptions } from './options.js';

/** How a report is put into text. Sources are those of the sample, whatever records are used. */
export const textOptions = ({ notes, depth = 'keeper' }: SharedOptions, library: Library, rules: readonly AnyRule[]): TextOptions => ({
  notes,
  depth,
  grounds: { rules: rules.map(describeRule), library, bibliography },
});

/** A depth makes no difference to JSON, and whoever asks for both is told so. */
export function noticeDepth({ format, depth }: Pick<SharedOptions, 'format' | 'depth'>): void {
  if (format === 'json' && depth !== undefined) {
    process.stderr.write('--depth makes no difference to JSON: findings are whole there, with their figures and what they rest on.\n');
  }
}

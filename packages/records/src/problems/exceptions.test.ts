import type { Problem } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { unknownExceptions, withExceptions } from './exceptions.js';

const problem = (code: string, pointer: string): Problem => ({ code, pointer, found: 'it is', allowed: 'it must', fix: 'Do.' });
const depth = problem('unlike-relatives', '/shape/bodyDepth');
const width = problem('unlike-relatives', '/shape/bodyWidth');
const left = (exceptions: readonly [code: string, at: string][], problems: readonly Problem[], foundIn: 'record' | 'records' = 'record') =>
  withExceptions({ exceptions: exceptions.map(([code, at]) => ({ code, at, reason: 'So.' })) }, problems, foundIn).map(
    ({ code, pointer, fix }) => `${code} ${pointer} ${fix}`,
  );

describe('exceptions', () => {
  it('cover a problem of their code at their place and within it', () => {
    expect(left([['unlike-relatives', '/shape/bodyDepth']], [depth, width])).toEqual(['unlike-relatives /shape/bodyWidth Do.']);
    expect(left([['unlike-relatives', '/shape']], [depth, width])).toEqual([]);
    expect(left([['unlike-relatives', '/shape/body']], [])).toEqual(['exception-not-needed /exceptions/0 Take it out.']);
  });

  it('tell of a place that is misspelt in place of the problem', () => {
    expect(left([['unlike-relatives', '/shape/bodydept']], [depth])).toEqual([
      'exception-not-needed /exceptions/0 Did you mean "/shape/bodyDepth"?',
    ]);
  });

  it('are judged only where their code shows', () => {
    expect(left([['unlike-genus', '/shape/bodyDepth']], [])).toEqual([]);
    expect(left([['unlike-genus', '/shape/bodyDepth']], [], 'records')).toEqual(['exception-not-needed /exceptions/0 Take it out.']);
  });

  it('cannot name codes that there are none of, or that are never right', () => {
    const codes = (code: string): string[] => unknownExceptions({ exceptions: [{ code, at: '/a', reason: 'So.' }] }).map(({ fix }) => fix);
    expect(codes('unlike-relative')).toEqual(['Did you mean "unlike-relatives"?']);
    expect(codes('closed-mouth')).toEqual(['Take the exception out, and put right what was reported.']);
    expect(codes('wider-than-deep')).toEqual([]);
  });
});

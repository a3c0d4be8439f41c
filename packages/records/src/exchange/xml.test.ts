import { XMLParser } from 'fast-xml-parser';
import { describe, expect, it } from 'vitest';
import { xmlText } from './xml.js';

describe('XML', () => {
  it('says what cannot stand in it by its name', () => {
    const hard = 'a < b & "c" > d \u{1f41f} ü';
    const text = xmlText({ name: 'root', attributes: { hard }, content: [{ name: 'empty' }, { name: 'inner', content: hard }] });
    const parsed: unknown = new XMLParser({ ignoreAttributes: false, attributeNamePrefix: '@', trimValues: false }).parse(text);
    expect(parsed).toMatchObject({ root: { '@hard': hard, empty: '', inner: hard } });
    expect(text).toContain('hard="a &lt; b &amp; &quot;c&quot; &gt; d \u{1f41f} ü"');
  });

  it('keeps line breaks in attributes, and puts a mark for what XML forbids', () => {
    expect(xmlText({ name: 'a', attributes: { b: 'x\ny\u0000' } })).toContain('b="x&#10;y\uFFFD"');
  });
});

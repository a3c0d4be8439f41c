import { heading as underlined, item as dashed, page, paragraph as wrapped, unbroken } from './layout.js';

/** What a part of a report is, however it is set. */
type Kind = 'title' | 'heading' | 'name' | 'paragraph' | 'line' | 'item';

/** A part of a report before it is set. */
export interface Block {
  readonly kind: Kind;
  readonly text: string;
  /** Columns by which plain text is set in. */
  readonly indent: number;
}

/** Parts that stand together: in plain text no empty line parts them. */
export type Section = readonly Block[];

const blockOf =
  (kind: Kind, usual: number) =>
  (text: string, indent: number = usual): Block => ({ kind, text, indent });

export const title: (text: string) => Block = blockOf('title', 0);
export const heading: (text: string) => Block = blockOf('heading', 0);
/** What the lines beneath it are about: a day, an animal, a level. */
export const name: (text: string, indent?: number) => Block = blockOf('name', 2);
export const paragraph: (text: string, indent?: number) => Block = blockOf('paragraph', 0);
/** One of several that stand beneath each other without a sign before them. */
export const line: (text: string, indent?: number) => Block = blockOf('line', 2);
/** One of several with a dash before it. */
export const item: (text: string, indent?: number) => Block = blockOf('item', 4);

/** A heading over sections; nothing where there are none. */
export function under(text: string, [first, ...rest]: readonly Section[]): Section[] {
  return first === undefined ? [] : [[heading(text), ...first], ...rest];
}

function textOfBlock({ kind, text, indent }: Block): string {
  if (kind === 'title') return text;
  if (kind === 'heading') return underlined(text);
  return kind === 'item' ? dashed(text, indent) : wrapped(text, indent);
}

/** Sections as plain text, without a line break at the end. */
export const setText = (sections: readonly Section[]): string =>
  sections
    .filter((section) => section.length > 0)
    .map((section) => section.map(textOfBlock).join('\n'))
    .join('\n\n');

/** A whole report as plain text. */
export const textPage = (sections: readonly Section[]): string => page(setText(sections));

/** Signs that CommonMark, or what most add to it, reads as more than themselves, wherever they stand. */
const SPECIAL = /[\\`*_[\]<>&~|$#]/g;

/** At the start of a line these open a list or a heading. */
const OPENS = /^([-+=]|\d+(?=[.)]))/;

/** A text that Markdown prints as it is, in one line: names and reasons are what people wrote. */
export const escaped = (text: string): string =>
  unbroken(text)
    .replaceAll(/\s+/g, ' ')
    .trim()
    .replaceAll(SPECIAL, '\\$&')
    .replace(OPENS, (opening) => (/\d/.test(opening) ? `${opening}\\` : `\\${opening}`));

const SIGNS: Readonly<Record<Kind, string>> = { title: '# ', heading: '## ', name: '### ', paragraph: '', line: '- ', item: '- ' };

const isListed = (block: Block | undefined): boolean => block?.kind === 'line' || block?.kind === 'item';

/** A whole report as Markdown: headings, paragraphs of one line each, lists; no HTML. */
export function markdownPage(sections: readonly Section[]): string {
  const blocks = sections.flat();
  const lines = blocks.map((block, at) => {
    const parted = at === 0 ? '' : isListed(block) && isListed(blocks[at - 1]) ? '\n' : '\n\n';
    return `${parted}${SIGNS[block.kind]}${escaped(block.text)}`;
  });
  return `${lines.join('')}\n`;
}

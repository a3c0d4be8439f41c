/** An element of XML with its attributes and what is in it. */
export interface Element {
  readonly name: string;
  readonly attributes?: Readonly<Record<string, string>>;
  readonly content?: string | readonly Element[];
}

const ENTITY: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  '\n': '&#10;',
  '\r': '&#13;',
  '\t': '&#9;',
};

/** Nothing but these can stand in XML 1.0. */
const FORBIDDEN = /[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu;

const inAttribute = (text: string): string => text.replace(FORBIDDEN, '\uFFFD').replace(/[&<>"\n\r\t]/g, (found) => ENTITY[found] ?? found);
const inText = (text: string): string => text.replace(FORBIDDEN, '\uFFFD').replace(/[&<>]/g, (found) => ENTITY[found] ?? found);

function elementText({ name, attributes = {}, content }: Element, indent: string): string {
  const open = `${indent}<${name}${Object.entries(attributes)
    .map(([key, value]) => ` ${key}="${inAttribute(value)}"`)
    .join('')}`;
  if (content === undefined) return `${open}/>\n`;
  if (typeof content === 'string') return `${open}>${inText(content)}</${name}>\n`;
  return `${open}>\n${content.map((inner) => elementText(inner, `${indent}  `)).join('')}${indent}</${name}>\n`;
}

/**
 * A document of XML in UTF-8.
 *
 * @example
 * xmlText({ name: 'a', attributes: { b: '1' } }); // '<?xml version="1.0" encoding="UTF-8"?>\n<a b="1"/>\n'
 */
export const xmlText = (root: Element): string => `<?xml version="1.0" encoding="UTF-8"?>\n${elementText(root, '')}`;

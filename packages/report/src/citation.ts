import type { CslItem, CslName } from '@commensal/schema';

/**
 * A source in one line: authors, year, title, where.
 *
 * @example
 * cited({ id: 'a', type: 'book', title: 'On Tanks', author: [{ family: 'Reed' }], issued: { 'date-parts': [[1999]] } });
 * // 'Reed (1999). On Tanks.'
 */
export function cited(item: CslItem): string {
  const people = (item.author ?? item.editor ?? []).map(nameOf).filter((name) => name !== '');
  const named = people.filter((name) => name !== AND_OTHERS);
  const authors = named.length > 3 || named.length < people.length ? `${named[0]} et al.` : named.join(', ');
  const year = item.issued?.['date-parts'][0]?.[0];
  const who = [authors, year === undefined ? '' : `(${year})`].filter((part) => part !== '').join(' ');
  const where = [
    [item['container-title'] ?? item.publisher, [item.volume, item.page].filter((part) => part !== undefined).join(':')]
      .filter((part) => part !== undefined && part !== '')
      .join(' '),
    item.DOI === undefined ? item.URL : `doi:${item.DOI}`,
  ].filter((part) => part !== undefined && part !== '');
  return [who, item.title, ...where]
    .filter((part) => part !== '')
    .map((part) => String(part).replace(/\.$/, ''))
    .join('. ')
    .concat('.');
}

/** How a list of authors that was cut short ends in the bibliography. */
const AND_OTHERS = 'and others';

const nameOf = (name: CslName): string => name.literal ?? name.family ?? '';

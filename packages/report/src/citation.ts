import type { CslItem, CslName } from '@commensal/schema';

/**
 * A source in one line: authors, year, title, where.
 *
 * @example
 * cited({ id: 'a', type: 'book', title: 'On Tanks', author: [{ family: 'Reed' }], issued: { 'date-parts': [[1999]] } });
 * // 'Reed (1999). On Tanks.'
 */
export function cited(item: CslItem): string {
  const { named, cut } = peopleOf(item);
  const authors = named.length > 3 || cut ? `${named[0]} et al.` : named.join(', ');
  const year = yearOf(item);
  // What nobody signed begins with its title, under which a reader looks for it.
  const [first, second] = authors === '' ? [item.title.replace(/\.$/, ''), ''] : [authors, item.title];
  const who = [first, year === undefined ? '' : `(${year})`].filter((part) => part !== '').join(' ');
  const where = [
    [item['container-title'] ?? item.publisher, [item.volume, item.page].filter((part) => part !== undefined).join(':')]
      .filter((part) => part !== undefined && part !== '')
      .join(' '),
    item.DOI === undefined ? item.URL : `doi:${item.DOI}`,
  ].filter((part) => part !== undefined && part !== '');
  return [who, second, ...where]
    .filter((part) => part !== '')
    .map((part) => String(part).replace(/\.$/, ''))
    .join('. ')
    .concat('.');
}

/**
 * A source in a few words, as it is named beside a figure: author and year, or the head of the title where there is no author.
 *
 * @example
 * citedShort({ id: 'a', type: 'book', title: 'On Tanks', author: [{ family: 'Reed' }], issued: { 'date-parts': [[1999]] } });
 * // 'Reed 1999'
 */
export function citedShort(item: CslItem): string {
  const { named, cut } = peopleOf(item);
  const [first = item.title.split(/[,:.]/)[0] ?? item.title, second] = named;
  const who = named.length > 2 || cut ? `${first} et al.` : second === undefined ? first : `${first} & ${second}`;
  return [who, yearOf(item)].filter((part) => part !== undefined).join(' ');
}

const yearOf = (item: CslItem): number | undefined => item.issued?.['date-parts'][0]?.[0];

/** Who signed it, and whether the list was cut short. */
function peopleOf(item: CslItem): { named: string[]; cut: boolean } {
  const people = (item.author ?? item.editor ?? []).map(nameOf).filter((name) => name !== '');
  const named = people.filter((name) => name !== AND_OTHERS);
  return { named, cut: named.length < people.length };
}

/** How a list of authors that was cut short ends in the bibliography. */
const AND_OTHERS = 'and others';

const nameOf = (name: CslName): string => name.literal ?? name.family ?? '';

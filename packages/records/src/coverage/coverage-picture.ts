import type { Coverage, CoverageCounts } from '@commensal/schema';
import { STANDINGS } from './coverage.js';
import { STANDING_NAMES } from './coverage-table.js';

/** Colours that people of every colour vision tell apart (Okabe & Ito 2008), each with a pattern and a sign of its own: those come first. */
interface Look {
  readonly colour: string;
  /** Lines drawn over the colour, in a tile of 8 by 8. */
  readonly pattern: string;
  /** The letter that stands on a bar wide enough. */
  readonly sign: string;
}

const LOOKS: Readonly<Record<keyof CoverageCounts, Look>> = {
  measured: { colour: '#0072B2', pattern: '', sign: 'M' },
  derived: { colour: '#56B4E9', pattern: '<path d="M0 4H8" stroke="#000" stroke-width="1"/>', sign: 'D' },
  imputed: { colour: '#009E73', pattern: '<path d="M0 8L8 0" stroke="#000" stroke-width="1"/>', sign: 'I' },
  practice: { colour: '#F0E442', pattern: '<circle cx="4" cy="4" r="1.2"/>', sign: 'P' },
  recalled: { colour: '#E69F00', pattern: '<path d="M0 0L8 8M0 8L8 0" stroke="#000" stroke-width="0.7"/>', sign: 'R' },
  none: { colour: '#DDDDDD', pattern: '<path d="M4 0V8" stroke="#000" stroke-width="1"/>', sign: 'N' },
  absent: { colour: '#FFFFFF', pattern: '', sign: '' },
};

const ROW = 18;
const BAR = 13;
const LABELS = 220;
const BARS = 560;
const WIDTH = LABELS + BARS + 20;
const TOP = 64;

/** Bars too narrow for a letter go without: their pattern still tells. */
const LEAST_FOR_SIGN = 14;

const escaped = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');

const tenths = (value: number): string => String(Math.round(value * 10) / 10);

const patterns = (): string =>
  STANDINGS.map(
    (standing) =>
      `<pattern id="of-${standing}" width="8" height="8" patternUnits="userSpaceOnUse"><rect width="8" height="8" fill="${LOOKS[standing].colour}"/>${LOOKS[standing].pattern}</pattern>`,
  ).join('\n');

/** A letter on white, so that no pattern makes it hard to read. */
const sign = (x: number, y: number, text: string): string =>
  `<rect x="${tenths(x - 5)}" y="${tenths(y - 9.5)}" width="10" height="11" fill="#fff"/><text x="${tenths(x)}" y="${tenths(y)}" text-anchor="middle" font-size="10" font-weight="bold">${text}</text>`;

const box = (x: number, y: number, width: number, standing: keyof CoverageCounts, title: string): string =>
  [
    `<rect x="${tenths(x)}" y="${y}" width="${tenths(width)}" height="${BAR}" fill="url(#of-${standing})" stroke="#000" stroke-width="0.6"><title>${escaped(title)}</title></rect>`,
    ...(width >= LEAST_FOR_SIGN && LOOKS[standing].sign !== '' ? [sign(x + width / 2, y + BAR - 3, LOOKS[standing].sign)] : []),
  ].join('\n');

function bar(y: number, label: string, counts: CoverageCounts, records: number): string {
  let x = LABELS;
  const boxes = STANDINGS.flatMap((standing) => {
    const count = counts[standing];
    if (count === 0) return [];
    const width = (BARS * count) / records;
    const drawn = box(x, y, width, standing, `${label}: ${STANDING_NAMES[standing]} ${count} of ${records}`);
    x += width;
    return [drawn];
  });
  return [`<text x="${LABELS - 8}" y="${y + BAR - 3}" text-anchor="end" font-size="11">${escaped(label)}</text>`, ...boxes].join('\n');
}

function legend(): string {
  let x = 10;
  return STANDINGS.map((standing) => {
    const name = STANDING_NAMES[standing];
    const drawn = `${box(x, 34, 22, standing, name)}\n<text x="${x + 27}" y="44" font-size="11">${name}</text>`;
    x += 44 + name.length * 7;
    return drawn;
  }).join('\n');
}

/** Stacked bars, a field each: how many of the records hold it, by what it rests on. Letters and patterns say it without colour. */
export function coveragePicture(coverage: Coverage): string {
  const height = TOP + coverage.fields.length * ROW + 34;
  const rows = coverage.fields.map(({ field, counts }, at) => bar(TOP + at * ROW, field, counts, coverage.records));
  const end = TOP + coverage.fields.length * ROW + 14;
  const title = `What the fields of ${coverage.records} species records rest on`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${height}" width="${WIDTH}" height="${height}" role="img" aria-labelledby="title" font-family="sans-serif">`,
    `<title id="title">${title}</title>`,
    `<defs>\n${patterns()}\n</defs>`,
    `<rect width="${WIDTH}" height="${height}" fill="#fff"/>`,
    `<text x="10" y="20" font-size="14" font-weight="bold">${title}</text>`,
    legend(),
    ...rows,
    `<text x="${LABELS}" y="${end}" font-size="11">0</text>`,
    `<text x="${LABELS + BARS}" y="${end}" text-anchor="end" font-size="11">${coverage.records} records</text>`,
    '</svg>',
  ]
    .join('\n')
    .concat('\n');
}

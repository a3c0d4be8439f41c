import type { Rock, Situation, SpeciesRecord } from '@commensal/schema';
import type { Band } from '../../quantity/band.js';
import { convert, isConvertible } from '../../quantity/units.js';
import { kindOf } from '../../stock/kind-of.js';
import type { Library } from '../../stock/library.js';
import { stockOf } from '../../stock/stock-of.js';
import type { Stock } from '../../stock/stock.js';
import { envelopeOf, tankOf } from '../../stock/tank-of.js';
import type { Variable } from '../study/variable.js';
import { type Scenario, scenarioOf } from './scenario-of.js';
import { copyOf, placesThatVary, type Slot, type Varied } from './slots.js';

/** How the values of variables get into a stock. */
export interface Writing {
  readonly write: (values: Float64Array) => void;
  /** Every place that is written to. */
  readonly slots: readonly Varied[];
  /** Bands that become exactly the value of a variable, and which. */
  readonly exact: ReadonlyMap<object, number>;
  /** Bands that become so many times the value of a variable, save for rounding. */
  readonly multiples: ReadonlyMap<object, Multiple>;
  /** What brings these objects up to date, and as little else as can be. */
  readonly writersOf: (holders: readonly object[]) => readonly ((values: Float64Array) => void)[];
}

/** A variable, and what a band is at a value of 1. */
export interface Multiple {
  readonly variable: number;
  readonly ofOne: Band;
}

/** What the documents are, variable by variable. */
export interface Documents {
  readonly situation: Situation;
  readonly library: Library;
  readonly variables: readonly Variable[];
}

export const scenarioIn = ({ situation, library, variables }: Documents, values: Float64Array): Scenario =>
  scenarioOf(situation, library, variables, values);

/** The stock of a scenario, resolved from its documents. */
export function stockIn(documents: Documents, values: Float64Array): Stock {
  const { situation, library } = scenarioIn(documents, values);
  return stockOf(situation, library).stock;
}

/**
 * How to write the values of variables into `stock`, a private copy of the stock of the scenario `first`; those that are `fixed` keep the value they
 * have there. What reaches the stock as it is, or in another unit, is written straight; what of tank and species is worked out from it is worked out anew
 * from their documents alone. Undefined where neither does: then the documents have to be resolved as a whole in each scenario.
 *
 * Where values arrive is found by trying: two scenarios in which every variable has another value are resolved and compared with the first. Nothing
 * in core remembers anything by animal or stock, which makes it safe to write into one.
 */
export function writingInto(stock: Stock, documents: Documents, first: Float64Array, fixed: readonly boolean[]): Writing | undefined {
  const { variables, library } = documents;
  // Days move animals about, and thresholds are read before a rule runs.
  if (variables.some(({ unit, at }, index) => fixed[index] !== true && (unit === 'd' || at.some(isSetting)))) return undefined;
  const trials = [1, 2].map((trial) => {
    const values = Float64Array.from(first);
    for (let at = 0; at < values.length; at += 1) if (fixed[at] !== true) values[at] = moved(first[at] as number, trial, at);
    return values;
  });
  const [one, other] = trials as [Float64Array, Float64Array];
  const places = placesThatVary(stock, stockIn(documents, one), stockIn(documents, other));
  if (places === undefined) return undefined;

  const straight = straightIn(places, variables, one, other);
  const rest = places.filter((place) => !straight.some(({ slot }) => slot === place));
  const worked: Worked[] = [];
  for (const place of rest) {
    const root = rootOf(place.path, stock);
    if (root === undefined) return undefined;
    const known = worked.find(({ about }) => about === root.about);
    const entry = { slot: place, path: root.path };
    if (known !== undefined) {
      known.places.push(entry);
      continue;
    }
    const resolve =
      root.about === 'tank.rock'
        ? resolving((values) => scenarioIn(documents, values).situation.tank.rock as Rock, envelopeOf)
        : root.about === 'tank'
          ? resolving((values) => scenarioIn(documents, values).situation.tank, tankOf)
          : resolving(
              (values) => scenarioIn(documents, values).library.records.get(root.about) as SpeciesRecord,
              (record) => kindOf(record, library.standIns),
            );
    const again = resolve(variables, first, one, other);
    if (again === undefined) return undefined;
    worked.push({ about: root.about, again, places: [entry] });
  }
  const { put, bands } = puttingStraight(straight);
  const puts = worked.map(({ again, places: into }) => {
    const putWorked = puttingWorked(into);
    return { holders: new Set<object>(into.map(({ slot }) => slot.holder)), put: (values: Float64Array) => putWorked(again(values)) };
  });
  return {
    slots: places,
    exact: new Map(bands.map(({ band, variable }) => [band, variable])),
    multiples: rockByMass(stock, scenarioIn(documents, first).situation.tank.rock, variables),
    write: (values) => {
      put(values);
      for (const one of puts) one.put(values);
    },
    writersOf: (wanted) => {
      const holders = new Set(wanted);
      const here = straight.filter(({ slot }) => holders.has(slot.holder));
      const roots = puts.filter((one) => wanted.some((holder) => one.holders.has(holder)));
      return [...(here.length === 0 ? [] : [puttingStraight(here).put]), ...roots.map((one) => one.put)];
    },
  };
}

/** The envelope of rock is a multiple of its mass where nothing else of the rock varies. */
function rockByMass({ tank: { rockL } }: Stock, rock: Rock | undefined, variables: readonly Variable[]): ReadonlyMap<object, Multiple> {
  const ofRock = variables.flatMap(({ at, unit }, variable) =>
    at.filter((pointer) => pointer.startsWith('/situation/tank/rock')).map((pointer) => ({ pointer, unit, variable })),
  );
  const [mass] = ofRock;
  const isMass = mass?.pointer === '/situation/tank/rock/mass' && mass.unit === 'kg' && ofRock.length === 1;
  if (!isMass || rock?.mass === undefined || rock.envelope !== undefined || rockL === undefined) return new Map();
  const ofOne = envelopeOf({ ...rock, mass: { ...rock.mass, value: 1, unit: 'kg' } });
  return ofOne === undefined ? new Map() : new Map([[rockL, { variable: mass.variable, ofOne }]]);
}

const isSetting = (pointer: string): boolean => pointer.startsWith('/situation/settings/');

/** Another value near the first, another step for each variable so that none is taken for another. */
const moved = (value: number, trial: number, variable: number): number => value * (1 + (trial * (variable + 1.25)) / 65536) + trial / 1024;

interface Straight {
  readonly slot: Slot;
  readonly variable: number;
  /** Undefined where the value stands there as it is. */
  readonly read: ((value: number) => number) | undefined;
}

/** The units that stocks are counted in. */
const COUNTED_IN: readonly string[] = ['cm', 'L', 'kg', 'Cel', '1', '/a', '[pH]', 'g', 'm2', 'g/d'];

/** The places that hold the value of one variable, as it is or in another unit. */
function straightIn(places: readonly Varied[], variables: readonly Variable[], one: Float64Array, other: Float64Array): Straight[] {
  const readings = variables.map(({ unit }) => [undefined, ...(unit === undefined ? [] : readingsOf(unit))]);
  return places.flatMap((slot): Straight[] => {
    for (let variable = 0; variable < variables.length; variable += 1) {
      const [x, y] = [one[variable] as number, other[variable] as number];
      for (const read of readings[variable] as Straight['read'][]) {
        if (slot.one === (read === undefined ? x : read(x)) && slot.other === (read === undefined ? y : read(y)))
          return [{ slot, variable, read }];
      }
    }
    return [];
  });
}

/** How values in a unit are read in those that stocks count in. */
const readingsOf = (unit: string): ((value: number) => number)[] =>
  COUNTED_IN.filter((counted) => counted !== unit && isConvertible(unit, counted)).map(
    (counted) => (value) => convert(value, unit, counted),
  );

/** A band or a figure without width, both its ends its value. */
type Exact = { low: number; centre: number; high: number } | { low: number; value: number; high: number };

interface ExactBand {
  readonly band: { low: number; centre: number; high: number };
  readonly variable: number;
}

/**
 * Writes values straight. Places come by threes, the ends of a band with its centre, or as a value alone: to write these by name is many times faster than place by place.
 */
function puttingStraight(straight: readonly Straight[]): { put: (values: Float64Array) => void; bands: readonly ExactBand[] } {
  const bands: ExactBand[] = [];
  const figures: { readonly figure: { low: number; value: number; high: number }; readonly variable: number }[] = [];
  const bare: { readonly figure: { value: number }; readonly variable: number }[] = [];
  const others: Straight[] = [];
  const holders = new Set(straight.map(({ slot }) => slot.holder));
  for (const holder of holders) {
    const here = straight.filter(({ slot }) => slot.holder === holder);
    const [first] = here as [Straight, ...Straight[]];
    const isExact = first.read === undefined && here.every(({ read, variable }) => read === undefined && variable === first.variable);
    const keys = new Set(here.map(({ slot }) => slot.key));
    const isThree = isExact && keys.size === 3 && keys.has('low') && keys.has('high');
    if (isThree && keys.has('centre')) bands.push({ band: holder as Exact & { centre: number }, variable: first.variable });
    else if (isThree && keys.has('value')) figures.push({ figure: holder as Exact & { value: number }, variable: first.variable });
    else if (isExact && keys.size === 1 && keys.has('value')) bare.push({ figure: holder as { value: number }, variable: first.variable });
    else others.push(...here);
  }
  const put = (values: Float64Array): void => {
    for (let at = 0; at < bands.length; at += 1) {
      const { band, variable } = bands[at] as ExactBand;
      const value = values[variable] as number;
      band.low = value;
      band.centre = value;
      band.high = value;
    }
    for (let at = 0; at < figures.length; at += 1) {
      const { figure, variable } = figures[at] as (typeof figures)[number];
      const value = values[variable] as number;
      figure.low = value;
      figure.value = value;
      figure.high = value;
    }
    for (let at = 0; at < bare.length; at += 1) {
      const { figure, variable } = bare[at] as (typeof bare)[number];
      figure.value = values[variable] as number;
    }
    for (let at = 0; at < others.length; at += 1) {
      const { slot, variable, read } = others[at] as Straight;
      slot.holder[slot.key] = read === undefined ? values[variable] : read(values[variable] as number);
    }
  };
  return { put, bands };
}

type Members = Readonly<Record<string, unknown>>;

interface Worked {
  /** `tank.rock`, `tank`, or the id of a species. */
  readonly about: string;
  readonly again: (values: Float64Array) => unknown;
  readonly places: WorkedPlace[];
}

interface WorkedPlace {
  readonly slot: Slot;
  readonly path: readonly string[];
}

/** Copies the numbers at some paths of what was worked out anew; whole bands by name, as they are written straight. */
function puttingWorked(places: readonly WorkedPlace[]): (resolved: unknown) => void {
  const bands: { readonly band: Exact & { centre: number }; readonly path: readonly string[] }[] = [];
  const others: WorkedPlace[] = [];
  for (const holder of new Set(places.map(({ slot }) => slot.holder))) {
    const here = places.filter(({ slot }) => slot.holder === holder);
    const keys = new Set(here.map(({ slot }) => slot.key));
    const isBand = here.length === 3 && keys.has('low') && keys.has('centre') && keys.has('high');
    if (isBand) bands.push({ band: holder as Exact & { centre: number }, path: (here[0] as WorkedPlace).path.slice(0, -1) });
    else others.push(...here);
  }
  return (resolved) => {
    for (let at = 0; at < bands.length; at += 1) {
      const { band, path } = bands[at] as (typeof bands)[number];
      const { low, centre, high } = memberAt(resolved, path) as Exact & { centre: number };
      band.low = low;
      band.centre = centre;
      band.high = high;
    }
    for (let at = 0; at < others.length; at += 1) {
      const { slot, path } = others[at] as WorkedPlace;
      slot.holder[slot.key] = memberAt(resolved, path);
    }
  };
}

function memberAt(whole: unknown, path: readonly string[]): unknown {
  let member = whole;
  for (let step = 0; step < path.length; step += 1) member = (member as Members)[path[step] as string];
  return member;
}

/** What a place of a stock is worked out from, and its path in that. */
function rootOf([top, index, member, ...rest]: readonly string[], stock: Stock): { about: string; path: readonly string[] } | undefined {
  if (top === 'tank' && index === 'rockL') return { about: 'tank.rock', path: [member, ...rest].filter((key) => key !== undefined) };
  if (top === 'tank') return { about: 'tank', path: [index, member, ...rest].filter((key) => key !== undefined) };
  if (member !== 'kind') return undefined;
  const line = top === 'animals' ? stock.animals[Number(index)] : top === 'wishes' ? stock.wishes[Number(index)] : undefined;
  return line === undefined ? undefined : { about: line.kind.id, path: rest };
}

/** Resolves a part of the documents again and again, its values written into a copy of it. */
const resolving =
  <Part extends object>(partOf: (values: Float64Array) => Part, resolve: (part: Part) => unknown) =>
  (
    variables: readonly Variable[],
    first: Float64Array,
    one: Float64Array,
    other: Float64Array,
  ): ((values: Float64Array) => unknown) | undefined => {
    const part = copyOf(partOf(first));
    const places = placesThatVary(part, partOf(one), partOf(other));
    if (places === undefined) return undefined;
    const straight = straightIn(places, variables, one, other);
    if (straight.length < places.length) return undefined;
    const { put } = puttingStraight(straight);
    return (values) => {
      put(values);
      return resolve(part);
    };
  };

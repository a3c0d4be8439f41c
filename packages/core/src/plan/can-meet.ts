import type { StockAnimal } from '../stock/stock.js';
import { batchName } from './batches.js';
import { type Ground, lastDay, meetingOf } from './ground.js';
import { type Line, newcomerFrom, type Pick } from './line.js';

/** Most values tried before the question is left open. */
const MOST_STEPS = 2000;

/** A length and a position of entry, as two numbers. */
interface Value {
  readonly length: number;
  readonly position: number;
}

/**
 * Whether lengths and positions of entry exist with which no two of some picks exclude each other, when there are so many
 * batches at most. Gaps in the order are allowed, as other batches may fill them: what fails here fails in every larger set
 * of no more batches as well. Only lines in grave danger are asked; a search that grows too long answers yes.
 */
export function canMeetOn(ground: Ground): (picks: readonly Pick[], batches: number) => boolean {
  const isGrave = gravePairs(ground);
  const clashes = clashTable(ground);
  return (picks, batches) => {
    const residents = (pick: Pick): Roles => isGrave.withResidents(pick);
    const roles = picks.map((pick) =>
      picks.reduce((sum, other) => (other === pick ? sum : joined(sum, isGrave.between(pick, other))), residents(pick)),
    );
    const variables = picks.flatMap((pick, index) => {
      const { predator, prey } = roles[index] as Roles;
      return predator || prey
        ? [{ pick, values: valuesOf(ground, pick, predator, prey, batches).filter((value) => !clashes.withResidents(pick, value)) }]
        : [];
    });
    let steps = 0;
    const assign = (open: readonly Variable[], taken: ReadonlySet<number>): boolean => {
      if (open.length === 0 || steps > MOST_STEPS) return true;
      if (isCrowded(open, taken, batches)) return false;
      const next = open.reduce((least, variable) => (variable.values.length < least.values.length ? variable : least));
      const others = open.filter((variable) => variable !== next);
      for (const value of next.values) {
        steps += 1;
        const left = others.map(({ pick, values }) => ({
          pick,
          values: values.filter((other) => !clashes.between(next.pick, value, pick, other)),
        }));
        if (left.every((variable) => variable.values.length > 0) && assign(left, new Set([...taken, value.position]))) return true;
      }
      return false;
    };
    return variables.every(({ values }) => values.length > 0) && assign(variables, new Set());
  };
}

/** A pick, and the values that are left for it. */
interface Variable {
  readonly pick: Pick;
  readonly values: readonly Value[];
}

/** Whether more batches want the first places, or the last, than are free there. */
function isCrowded(open: readonly Variable[], taken: ReadonlySet<number>, places: number): boolean {
  const spans = new Map<string, { first: number; last: number }>();
  for (const { pick, values } of open) {
    const name = batchName(pick.line.wish.kind);
    const span = spans.get(name) ?? { first: 0, last: places - 1 };
    let first = places;
    let last = -1;
    for (const { position } of values) {
      if (taken.has(position)) continue;
      first = Math.min(first, position);
      last = Math.max(last, position);
    }
    // Whose kin have a place already want none of their own.
    if (last >= 0) spans.set(name, { first: Math.max(span.first, first), last: Math.min(span.last, last) });
  }
  let wantFirst = 0;
  let wantLast = 0;
  let freeBelow = 0;
  let freeAbove = 0;
  for (let place = 0; place < places; place += 1) {
    const mirrored = places - 1 - place;
    freeBelow += taken.has(place) ? 0 : 1;
    freeAbove += taken.has(mirrored) ? 0 : 1;
    for (const { first, last } of spans.values()) {
      if (last === place) wantFirst += 1;
      if (first === mirrored) wantLast += 1;
    }
    if (wantFirst > freeBelow || wantLast > freeAbove) return true;
  }
  return false;
}

/** Longer is safer for what is only prey, shorter for what only swallows; else every length counts. */
function valuesOf(ground: Ground, { line }: Pick, predator: boolean, prey: boolean, batches: number): Value[] {
  const last = Math.max(0, line.lengthsCm.length - 1);
  const every = line.lengthsCm.length === 0 ? [0] : line.lengthsCm.map((_, index) => index);
  const lengths = ground.stock.settings.whenUncertain === 'exclude' || predator === prey ? every : prey ? [last] : [0];
  return lengths.flatMap((length) => Array.from({ length: batches }, (_, position) => ({ length, position })));
}

interface Roles {
  readonly predator: boolean;
  readonly prey: boolean;
}

const joined = (one: Roles, other: Roles): Roles => ({ predator: one.predator || other.predator, prey: one.prey || other.prey });

/** Which parts a line plays in dangers at their worst, found once a pair. */
function gravePairs(ground: Ground): { between: (one: Pick, other: Pick) => Roles; withResidents: (pick: Pick) => Roles } {
  const known = new Map<string, Roles>();
  const worst = ({ line, count }: Pick): { strong: StockAnimal; weak: StockAnimal } => ({
    strong: newcomerFrom({ line, count }, ground.startDay, line.lengthsCm.at(-1)),
    weak: newcomerFrom({ line, count }, lastDay(ground), line.lengthsCm[0]),
  });
  const roleIn = (id: string, one: StockAnimal, other: StockAnimal): Roles => {
    const { grave } = meetingOf(ground, one, other);
    return { predator: grave.predators.includes(id), prey: grave.prey.includes(id) };
  };
  const remembered = (key: string, find: () => Roles): Roles => {
    const found = known.get(key) ?? find();
    known.set(key, found);
    return found;
  };
  return {
    between: (one, other) =>
      remembered(`${one.line.id} ${other.line.id}`, () =>
        joined(roleIn(one.line.id, worst(one).strong, worst(other).weak), roleIn(one.line.id, worst(one).weak, worst(other).strong)),
      ),
    withResidents: (pick) =>
      remembered(pick.line.id, () =>
        [worst(pick).strong, worst(pick).weak]
          .flatMap((own) => ground.stock.animals.map((resident) => roleIn(pick.line.id, own, resident)))
          .reduce(joined, { predator: false, prey: false }),
      ),
  };
}

interface Clashes {
  readonly between: (one: Pick, value: Value, other: Pick, otherValue: Value) => boolean;
  readonly withResidents: (pick: Pick, value: Value) => boolean;
}

/** Who excludes whom at which lengths and positions, found as it is asked for. */
function clashTable(ground: Ground): Clashes {
  const places = Math.max(1, ground.mostBatches);
  const values = 3 * places;
  const known = new Map<string, Int8Array>();
  const number = ({ length, position }: Value): number => length * places + position;
  const animal = ({ line, count }: Pick, { length, position }: Value): StockAnimal =>
    newcomerFrom({ line, count }, ground.startDay + position * ground.gapDays, line.lengthsCm[length]);
  const batches = new Map<Line, string>(ground.lines.map((line) => [line, batchName(line.wish.kind)]));
  const answers = (key: string, size: number): Int8Array => {
    const table = known.get(key) ?? new Int8Array(size);
    known.set(key, table);
    return table;
  };
  const ask = (table: Int8Array, at: number, find: () => boolean): boolean => {
    if (table[at] === 0) table[at] = find() ? 1 : -1;
    return table[at] === 1;
  };
  const between: Clashes['between'] = (one, value, other, otherValue) => {
    if (one.line.id > other.line.id) return between(other, otherValue, one, value);
    // Kin go in on one day, all others on days of their own.
    if ((value.position === otherValue.position) !== (batches.get(one.line) === batches.get(other.line))) return true;
    const table = answers(`${one.line.id} ${other.line.id}`, values * values);
    return ask(
      table,
      number(value) * values + number(otherValue),
      () => meetingOf(ground, animal(one, value), animal(other, otherValue)).excludes,
    );
  };
  return {
    between,
    withResidents: (pick, value) =>
      ask(answers(pick.line.id, values), number(value), () =>
        ground.stock.animals.some((resident) => meetingOf(ground, resident, animal(pick, value)).excludes),
      ),
  };
}

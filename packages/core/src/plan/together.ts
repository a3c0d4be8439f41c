import type { Change, Finding } from '@commensal/schema';
import type { Library } from '../stock/library.js';
import { lineId } from '../stock/line-id.js';
import { arrange } from './arrange.js';
import { fittingIn, whatCanStay } from './fits.js';
import type { Ground } from './ground.js';
import { type Changed, changedBy, chosenOn, type ChosenSet, letsIn } from './lets-in.js';
import type { Pick } from './line.js';
import { insteadOf } from './possible-changes.js';

/**
 * Changes that together let a wish in where none does alone: all that answer what was found, then another home for residents that
 * still stand in the way, then what was chosen and cannot stay. Less those without which the others do as well. None where that is
 * not enough.
 */
export function changesTogether(ground: Ground, library: Library, chosen: ChosenSet, pick: Pick, changes: readonly Change[]): Change[] {
  const provided = changes.some(({ kind }) => kind === 'provision-made');
  const ofTheTank = changes.filter(
    ({ kind }) => kind !== 'instead-of' && kind !== 'without-resident' && !(provided && kind === 'more-experience'),
  );
  const ofAll = changedBy(ground, library, ofTheTank);
  const barring = excludingAlone(ofAll, pick);
  const residents = homesFor(ground, barring);
  const all = [...ofTheTank, ...residents];
  const changed = residents.length === 0 ? ofAll : changedBy(ground, library, all);
  if ((residents.length === 0 ? barring : excludingAlone(changed, pick)).length > 0) return [];
  const dropped = whatCannotStay(changed, chosen, pick);
  // What would have to have the tank for itself is better told so.
  if (dropped.length > 1 && dropped.length === chosen.picks.length) return [];
  all.push(...insteadOf(dropped));
  const works = (some: readonly Change[]): boolean => letsIn(ground, library, chosen, pick, some);
  if (all.length < 2 || !works(all)) return [];
  // Of two neither does alone: that was tried.
  if (all.length === 2) return all;
  let needed = all;
  for (const change of [...all].sort((one, other) => effort(other) - effort(one))) {
    const without = needed.filter((other) => other !== change);
    if (works(without)) needed = without;
  }
  return needed;
}

/** What keeps a wish out that is the only one. */
function excludingAlone({ ground, same }: Changed, pick: Pick): readonly Finding[] {
  const own = same(pick);
  return own === undefined ? [] : arrange(ground, [own]).excluding;
}

/** Another home for each resident that findings name. */
function homesFor({ situation }: Ground, findings: readonly Finding[]): Change[] {
  const residents = new Set((situation.residents ?? []).map(({ id }) => id));
  const named = findings.flatMap(({ subjects }) => subjects.map(({ id }) => lineId(id)));
  return [...new Set(named)].filter((id) => residents.has(id)).map((animal): Change => ({ kind: 'without-resident', animal }));
}

/** The species of chosen wishes that cannot stay beside it: of those that could, the ones wanted least. */
function whatCannotStay(changed: Changed, chosen: ChosenSet, pick: Pick): string[] {
  const own = changed.same(pick);
  const { picks, entries } = chosenOn(changed, chosen);
  const kept = own === undefined ? undefined : whatCanStay(fittingIn(changed.ground, entries), picks, own);
  return kept === undefined ? [] : picks.filter((other) => !kept.includes(other)).map(({ line }) => line.wish.kind.id);
}

/** What one would rather be spared. */
const effort = ({ kind }: Change): number => EFFORT.indexOf(kind);

const EFFORT: readonly Change['kind'][] = [
  'food-offered',
  'this-length',
  'this-count',
  'not-before',
  'more-rock',
  'without-copper',
  'warmer-or-cooler',
  'provision-made',
  'rock-relaid',
  'instead-of',
  'without-resident',
  'larger-tank',
  'more-experience',
];

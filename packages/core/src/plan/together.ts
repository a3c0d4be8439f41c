import type { Change } from '@commensal/schema';
import type { Library } from '../stock/library.js';
import { arrange } from './arrange.js';
import { fittingIn, whatCanStay } from './fits.js';
import type { Ground } from './ground.js';
import { changedBy, chosenOn, type ChosenSet, letsIn } from './lets-in.js';
import type { Pick } from './line.js';

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
  const all = [...ofTheTank];
  const residents = residentsInTheWay(ground, library, pick, all);
  if (residents === undefined) return [];
  all.push(...residents);
  const dropped = whatCannotStay(ground, library, chosen, pick, all);
  // What would have to have the tank for itself is better told so.
  if (dropped.length > 1 && dropped.length === chosen.picks.length) return [];
  if (dropped.length > 0) all.push({ kind: 'instead-of', species: [...new Set(dropped)] as [string, ...string[]] });
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

/** None where the wish comes in alone; undefined where it does not even without them. */
function residentsInTheWay(ground: Ground, library: Library, pick: Pick, changes: readonly Change[]): Change[] | undefined {
  const excludingAfter = (some: readonly Change[]): readonly { readonly id: string }[] | undefined => {
    const changed = changedBy(ground, library, some);
    const own = changed.same(pick);
    const excluding = own === undefined ? undefined : arrange(changed.ground, [own]).excluding;
    return excluding?.length === 0 ? undefined : (excluding ?? []).flatMap(({ subjects }) => subjects);
  };
  const subjects = excludingAfter(changes);
  if (subjects === undefined) return [];
  const residents = new Set((ground.situation.residents ?? []).map(({ id }) => id));
  const inTheWay = [...new Set(subjects.map(({ id }) => id.split('#')[0] as string))].filter((id) => residents.has(id));
  const homes = inTheWay.map((animal): Change => ({ kind: 'without-resident', animal }));
  return homes.length > 0 && excludingAfter([...changes, ...homes]) === undefined ? homes : undefined;
}

/** The species of chosen wishes that cannot stay beside it: of those that could, the ones wanted least. */
function whatCannotStay(ground: Ground, library: Library, chosen: ChosenSet, pick: Pick, changes: readonly Change[]): string[] {
  const changed = changedBy(ground, library, changes);
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

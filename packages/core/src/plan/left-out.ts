import type { Change, Finding, LeftOut } from '@commensal/schema';
import { REEF_ROCK, rockEnvelope } from '../biology/rock-envelope.js';
import { applyChange } from '../changes/apply.js';
import type { Library } from '../stock/library.js';
import { arrange, type Arrangement } from './arrange.js';
import { type Ground, groundOf } from './ground.js';
import type { Line, Pick } from './line.js';

/** Why each wish that was not granted was left out, and which single changes would let it in beside what was chosen. */
export function leftOutOf(ground: Ground, library: Library, chosen: Arrangement): LeftOut[] {
  const granted = new Set(chosen.picks.map((pick) => pick.line.id));
  const inWishOrder = ground.stock.wishes.map((wish) => ground.lines.find((line) => line.wish === wish) as Line);
  return inWishOrder.filter((line) => !granted.has(line.id)).map((line) => leftOut(ground, library, chosen, line));
}

function leftOut(ground: Ground, library: Library, chosen: Arrangement, line: Line): LeftOut {
  const pick: Pick = { line, count: line.wish.least };
  const beside = arrange(ground, [...chosen.picks, pick]);
  const about = beside.excluding.filter((finding) => isAbout(finding, line.id, ground));
  // What stands in its way by itself comes before what it would do to others.
  const byItself = (finding: Finding): boolean => finding.subjects.length === 1;
  const because = [...about.filter(byItself), ...about.filter((finding) => !byItself(finding))];
  const chosenIds = new Map(chosen.picks.map((other) => [other.line.id, other.line.wish.kind.id]));
  const rather = because.flatMap((finding) => finding.subjects.flatMap((subject) => chosenIds.get(subject.id) ?? []));
  return {
    species: line.wish.kind.id,
    count: pick.count,
    because: because.length > 0 ? because : [...beside.excluding],
    conflict: { species: [...new Set(rather)], residents: [], minimal: false },
    rather: [...new Set(rather)],
    wouldNeed: changesFor(ground, because, [...new Set(rather)]).filter((change) => letsIn(ground, library, chosen, pick, change)),
  };
}

/** A finding that names the wish, or one on claims that its presence adds to. */
const isAbout = (finding: Finding, id: string, ground: Ground): boolean =>
  finding.subjects.some((subject) => subject.id === id) ||
  ground.rules.some((rule) => rule.id === finding.rule && rule.planning === 'capacity');

/** Mass of a litre of reef rock to its outer faces. */
const REEF_ROCK_KG_PER_L = 1 / rockEnvelope(1, REEF_ROCK.grainDensity, REEF_ROCK.porosity);

/** Changes that answer what was found; each is tried before it is told. */
function changesFor(ground: Ground, because: readonly Finding[], rather: readonly string[]): Change[] {
  const changes: Change[] = [];
  const residents = new Set((ground.situation.residents ?? []).map((resident) => resident.id));
  const number = (finding: Finding, name: string): number => finding.data[name]?.value ?? 0;
  const tight = because.filter((finding) => finding.rule === 'swimming-room');
  if (tight.length > 0) {
    const most = (need: string, has: string): number =>
      Math.max(...tight.map((finding) => Math.max(number(finding, need), number(finding, has))));
    const size = {
      lengthCm: most('needLength', 'tankLength'),
      widthCm: most('needWidth', 'tankWidth'),
      waterL: most('needWater', 'tankWater'),
    };
    // Of an animal of which only a doubt is known it may not be known either how large a tank would do.
    if (Object.values(size).every((value) => value > 0)) changes.push({ kind: 'larger-tank', ...size });
  }
  for (const finding of because) {
    switch (finding.rule) {
      case 'care-tier': {
        const lacking = finding.data.lacking?.keys ?? [];
        if (finding.message === 'care-tier.unprovided' && lacking.length > 0)
          changes.push({ kind: 'provision-made', provisions: [...lacking] });
        changes.push({ kind: 'more-experience', careTier: number(finding, 'tier') });
        break;
      }
      case 'rock-crowding':
        if (number(finding, 'missingRock') > 0)
          changes.push({ kind: 'more-rock', massKg: Math.ceil(number(finding, 'missingRock') * REEF_ROCK_KG_PER_L) });
        break;
      case 'water':
        if (finding.subjects[0]?.role === 'temperature') {
          changes.push({ kind: 'warmer-or-cooler', lowCel: number(finding, 'wantsLow'), highCel: number(finding, 'wantsHigh') });
        }
        break;
      default:
    }
    for (const subject of finding.subjects) if (residents.has(subject.id)) changes.push({ kind: 'without-resident', animal: subject.id });
  }
  if (rather.length > 0) changes.push({ kind: 'instead-of', species: [...rather] });
  const seen = new Set<string>();
  return changes.filter((change) => {
    const text = JSON.stringify(change);
    return !seen.has(text) && seen.add(text) !== undefined;
  });
}

/** Whether the wish comes in beside what was chosen once the change is made. */
function letsIn(ground: Ground, library: Library, chosen: Arrangement, pick: Pick, change: Change): boolean {
  const changed = groundOf(applyChange(ground.situation, change), library, ground.rules, true);
  // Ids of lines may differ afterwards; the wishes that stay keep their order.
  const dropped = change.kind === 'instead-of' ? change.species : [];
  const staying = (ground.situation.wishes ?? []).flatMap((wish, index) => (dropped.includes(wish.species) ? [] : [index]));
  const same = (wanted: Pick): Pick | undefined => {
    const wish = changed.stock.wishes[staying.indexOf(ground.stock.wishes.indexOf(wanted.line.wish))];
    const line = wish === undefined ? undefined : changed.lines.find((other) => other.wish === wish);
    return line === undefined ? undefined : { line, count: wanted.count };
  };
  const kept = chosen.picks.flatMap((other) => same(other) ?? []);
  const own = same(pick);
  return own !== undefined && arrange(changed, [...kept, own]).excluding.length === 0;
}

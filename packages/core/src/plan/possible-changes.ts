import type { Change, Finding } from '@commensal/schema';
import { REEF_ROCK, rockEnvelope } from '../biology/rock-envelope.js';
import { isoOf } from '../quantity/days.js';
import type { Arrangement } from './arrange.js';
import type { Ground } from './ground.js';

/** Mass of a litre of reef rock to its outer faces. */
const REEF_ROCK_KG_PER_L = 1 / rockEnvelope(1, REEF_ROCK.grainDensity, REEF_ROCK.porosity);

const number = (finding: Finding, name: string): number => finding.data[name]?.value ?? 0;

/** Changes that answer some findings; whether they do has to be tried. `beside` is the arrangement that gave them. */
export function possibleChanges(ground: Ground, because: readonly Finding[], beside: Arrangement): Change[] {
  const residents = new Set((ground.situation.residents ?? []).map((resident) => resident.id));
  const changes: Change[] = [
    ...largerTank(because),
    ...because.flatMap((finding) => answersTo(finding)),
    ...moreRock(because),
    ...otherLengths(ground, because),
    ...relaying(because, beside),
    ...because.flatMap(({ subjects }) =>
      subjects.flatMap(({ id }): Change[] => (residents.has(id) ? [{ kind: 'without-resident', animal: id }] : [])),
    ),
  ];
  const seen = new Set<string>();
  return changes.filter((change) => {
    const text = JSON.stringify(change);
    return !seen.has(text) && seen.add(text) !== undefined;
  });
}

/** One tank for all that want room. */
function largerTank(because: readonly Finding[]): Change[] {
  const tight = because.filter((finding) => finding.rule === 'swimming-room');
  if (tight.length === 0) return [];
  const most = (need: string, has: string): number =>
    Math.max(...tight.map((finding) => Math.max(number(finding, need), number(finding, has))));
  const size = {
    lengthCm: most('needLength', 'tankLength'),
    widthCm: most('needWidth', 'tankWidth'),
    waterL: most('needWater', 'tankWater'),
  };
  // Of an animal of which only a doubt is known it may not be known either how large a tank would do.
  return Object.values(size).every((value) => value > 0) ? [{ kind: 'larger-tank', ...size }] : [];
}

function answersTo(finding: Finding): Change[] {
  switch (finding.rule) {
    case 'care-tier': {
      const lacking = finding.data.lacking?.keys ?? [];
      return [
        ...(finding.message === 'care-tier.unprovided' && lacking.length > 0
          ? [{ kind: 'provision-made' as const, provisions: [...lacking] as [string, ...string[]] }]
          : []),
        { kind: 'more-experience', careTier: number(finding, 'tier') },
      ];
    }
    case 'water':
      if (finding.subjects[0]?.role === 'temperature')
        return [{ kind: 'warmer-or-cooler', lowCel: number(finding, 'wantsLow'), highCel: number(finding, 'wantsHigh') }];
      return finding.subjects[0]?.role === 'copper' ? [{ kind: 'without-copper' }] : [];
    case 'niche': {
      const food = finding.data.food?.keys?.[0];
      return food === undefined ? [] : [{ kind: 'food-offered', food }];
    }
    default:
      return [];
  }
}

/** Rock for the one that lacks most of it. */
function moreRock(because: readonly Finding[]): Change[] {
  const missingL = Math.max(0, ...because.map((finding) => number(finding, 'missingRock')));
  return missingL > 0 ? [{ kind: 'more-rock', massKg: Math.ceil(missingL * REEF_ROCK_KG_PER_L) }] : [];
}

/** A wish that would be safe at another length, and one of which there are too many. */
function otherLengths(ground: Ground, because: readonly Finding[]): Change[] {
  return ground.lines.flatMap(({ id, wish }): Change[] => {
    const own = because.filter(({ subjects }) => subjects.some((subject) => subject.id === id));
    const isSafeAt = (finding: Finding): boolean =>
      finding.data.safeLength !== undefined &&
      finding.subjects.some((subject) => subject.id === id && ['prey', 'victim'].includes(subject.role));
    const lengthCm = Math.max(0, ...own.filter(isSafeAt).map((finding) => number(finding, 'safeLength')));
    const most = Math.min(
      ...own.filter(({ rule }) => rule === 'company').map((finding) => finding.data.most?.value ?? Number.POSITIVE_INFINITY),
    );
    return [
      ...(lengthCm > 0 ? [{ kind: 'this-length' as const, species: wish.kind.id, lengthCm }] : []),
      ...(most < wish.least ? [{ kind: 'this-count' as const, species: wish.kind.id, count: most }] : []),
    ];
  });
}

/** A finding on who holds what it has settled in. */
export const isOverHold = ({ rule }: Finding): boolean => rule === 'lockout' || rule === 'rivalry' || rule === 'dominance';

/** What comes in goes without some others; none where there are none. */
export function insteadOf(species: readonly string[]): Change[] {
  const [first, ...rest] = new Set(species);
  return first === undefined ? [] : [{ kind: 'instead-of', species: [first, ...rest] }];
}

/** The rock laid anew on the day on which one of them goes in, where it is others that hold it. */
function relaying(because: readonly Finding[], { batches }: Arrangement): Change[] {
  const held = because.filter(isOverHold);
  const ids = new Set(held.flatMap(({ subjects }) => subjects.map(({ id }) => id)));
  const days = batches.filter(({ animals }) => animals.some(({ id }) => ids.has(id))).map(({ day }) => day);
  return days.length === 0 ? [] : [{ kind: 'rock-relaid', date: isoOf(Math.max(...days)) }];
}

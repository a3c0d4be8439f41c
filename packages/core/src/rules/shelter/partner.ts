import type { Basis, SpeciesRecord } from '@commensal/schema';
import { isoOf } from '../../quantity/days.js';
import { weakest } from '../../quantity/basis.js';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import { arrivalOf, comers, isThere } from '../presence.js';
import { PASSED, type Telling, type Verdict } from '../rule.js';

type Partner = NonNullable<NonNullable<SpeciesRecord['needs']>['partners']>[number];

/** An animal and the partners of one sort that it lives with; any of them will do. */
export interface PartnerMeasure {
  readonly about: 'partner';
  readonly animal: StockAnimal;
  readonly kind: Partner['kind'];
  readonly optional: boolean;
  readonly species: readonly string[];
  /** First day in the tank on which none of them is there; Infinity where one always is. */
  readonly lackingDay: number;
  /** Day on which the first of them comes in after that; undefined where none does. */
  readonly comesDay: number | undefined;
  readonly basis: Basis;
}

const KINDS: readonly Partner['kind'][] = ['host', 'burrow-mate', 'guest'];

export function measurePartners(stock: Stock, each: (measure: PartnerMeasure) => void): void {
  for (const animal of comers(stock)) {
    const partners = animal.kind.record.needs?.partners;
    if (partners === undefined) continue;
    for (const kind of KINDS) {
      const alike = partners.filter((partner) => partner.kind === kind);
      const optional = alike.every((partner) => partner.optional);
      // A host that may stay without guests lacks nothing.
      if (alike.length > 0 && !(optional && kind === 'guest')) each(measureOne(stock, animal, kind, optional, alike));
    }
  }
}

function measureOne(
  stock: Stock,
  animal: StockAnimal,
  kind: Partner['kind'],
  optional: boolean,
  alike: readonly Partner[],
): PartnerMeasure {
  const species = alike.map((partner) => partner.species);
  const mates = comers(stock).filter((other) => species.includes(other.kind.id));
  const from = arrivalOf(stock, animal);
  const until = Math.min(Math.max(stock.horizonDay, from), animal.leaveDay - 1);
  // None can go missing but on the first day and on the days on which one leaves.
  const days = [from, ...mates.map((mate) => mate.leaveDay)].filter((day) => day >= from && day <= until).sort((one, other) => one - other);
  const lackingDay = days.find((day) => !mates.some((mate) => isThere(stock, mate, day))) ?? Infinity;
  const later = mates.map((mate) => arrivalOf(stock, mate)).filter((day) => day > lackingDay);
  return {
    about: 'partner',
    animal,
    kind,
    optional,
    species,
    lackingDay,
    comesDay: later.length > 0 ? Math.min(...later) : undefined,
    basis: weakest(...alike.map((partner) => partner.basis)),
  };
}

export function judgePartner({ optional, lackingDay }: PartnerMeasure): Verdict {
  if (lackingDay === Infinity) return PASSED;
  return optional
    ? { outcome: 'failed', level: 'note', message: 'shelter.partnerWelcome' }
    : { outcome: 'failed', level: 'warning', message: 'shelter.partnerMissing' };
}

/** The part the animal itself plays. */
const PART: Readonly<Record<Partner['kind'], string>> = { host: 'lodger', 'burrow-mate': 'burrow-mate', guest: 'host' };

export function tellPartner({ animal, kind, species, lackingDay, comesDay, basis }: PartnerMeasure): Telling {
  return {
    subjects: [{ id: animal.id, role: PART[kind] }],
    data: {
      kind: { keys: [kind] },
      partner: { species: species[0] as string },
      others: { value: species.length - 1, unit: '1' },
      ...(comesDay === undefined ? {} : { comes: { date: isoOf(comesDay) } }),
    },
    when: lackingDay,
    basis,
  };
}

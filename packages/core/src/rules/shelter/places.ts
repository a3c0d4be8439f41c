import type { StockAnimal } from '../../stock/stock.js';
import { arePartners } from '../partners.js';

/** What shelters are counted as. */
export type Place = 'burrow' | 'cave' | 'hole' | 'branches';

/**
 * Places that some animals need between them: one each, but a bonded pair shares one, and so do a fish and a shrimp, or other
 * species, that share a burrow.
 */
export function placesFor(animals: readonly StockAnimal[], place: Place): number {
  const claims = claimsByKind(animals);
  let places = claims.reduce((sum, { left }) => sum + left, 0);
  if (place !== 'burrow') return places;
  claims.forEach((one, at) => {
    for (const other of claims.slice(at + 1)) {
      if (!arePartners(one.kind, other.kind)) continue;
      const shared = Math.min(one.left, other.left);
      one.left -= shared;
      other.left -= shared;
      places -= shared;
    }
  });
  return places;
}

interface Claim {
  readonly kind: StockAnimal['kind'];
  left: number;
}

/** In the order of species ids, so that the order of the document does not matter. */
function claimsByKind(animals: readonly StockAnimal[]): Claim[] {
  const claims = new Map<string, Claim>();
  for (const { kind, count } of animals) {
    const claim = claims.get(kind.id) ?? { kind, left: 0 };
    claim.left += count;
    claims.set(kind.id, claim);
  }
  const inOrder = [...claims.values()].sort((one, other) => (one.kind.id < other.kind.id ? -1 : 1));
  for (const claim of inOrder) if (claim.kind.record.conduct?.company?.kind === 'pair') claim.left = Math.ceil(claim.left / 2);
  return inOrder;
}

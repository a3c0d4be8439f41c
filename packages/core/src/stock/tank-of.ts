import type { Rock, Situation } from '@commensal/schema';
import { REEF_ROCK, rockEnvelope } from '../biology/rock-envelope.js';
import { type Band, bandOf, exactly, type Quantity } from '../quantity/band.js';
import { dayOf } from '../quantity/days.js';
import { logDown, logUp, together } from '../quantity/log-errors.js';
import type { StockTank } from './stock.js';

/** Reef rock with the bands that its sources leave. */
const GRAIN_DENSITY: Band = { low: 2.72, centre: REEF_ROCK.grainDensity, high: 2.9, basis: 'derived' };
const POROSITY: Band = { low: 0.33, centre: REEF_ROCK.porosity, high: 0.6, basis: 'derived' };

/** The tank as rules see it, in litres, centimetres and degrees Celsius. */
export function tankOf(tank: Situation['tank']): StockTank {
  return {
    waterL: bandOf(tank.water, 'L'),
    lengthCm: reading(tank.length, 'cm'),
    widthCm: reading(tank.width, 'cm'),
    rockL: tank.rock === undefined ? undefined : envelopeOf(tank.rock),
    temperatureCel: reading(tank.temperature, 'Cel'),
    salinity: reading(tank.salinity, '1'),
    acidity: reading(tank.acidity, '[pH]'),
    cycledDay: day(tank.cycledOn),
    sandCm: reading(tank.sand?.depth, 'cm'),
    sandGrain: tank.sand?.grain,
    shelters: {
      caves: tank.shelters?.caves,
      holes: tank.shelters?.holes,
      burrows: tank.shelters?.burrows,
      branches: tank.shelters?.branches,
    },
    cover: tank.cover,
    gapCm: reading(tank.gap, 'cm'),
    pumps: tank.pumps,
    light: tank.light,
    flow: tank.flow,
    feedingsPerDay: tank.feedingsPerDay,
    foods: tank.foods,
    feedGPerDay: reading(tank.feed?.mass, 'g'),
    feedProtein: reading(tank.feed?.protein, '1'),
    filterM2: reading(tank.filter?.area, 'm2'),
    turnoverGPerDay: reading(tank.filter?.rate, 'g/d'),
    disease: diseaseOf(tank.disease),
    copper: tank.copper,
    kept: tank.kept,
    holdingLots: tank.holdingTank?.lots,
  };
}

const day = (date: string | undefined): number | undefined => (date === undefined ? undefined : dayOf(date));

function diseaseOf(disease: Situation['tank']['disease']): StockTank['disease'] {
  if (disease === undefined) return undefined;
  const { lastSeen, fishlessFrom, fishlessUntil } = disease;
  return {
    lastSeen: dayOf(lastSeen),
    ...(fishlessFrom === undefined || fishlessUntil === undefined
      ? {}
      : { fishlessFrom: dayOf(fishlessFrom), fishlessUntil: dayOf(fishlessUntil) }),
  };
}

const reading = (quantity: Quantity | undefined, unit: string): Band | undefined =>
  quantity === undefined ? undefined : bandOf(quantity, unit);

/** Rock to its outer faces, in litres: as told, or from its mass. */
export function envelopeOf(rock: Rock): Band | undefined {
  if (rock.envelope !== undefined) return bandOf(rock.envelope, 'L');
  if (rock.mass === undefined) return undefined;
  const mass = bandOf(rock.mass, 'kg');
  const density = rock.grainDensity === undefined ? GRAIN_DENSITY : bandOf(rock.grainDensity, 'kg/L');
  const porosity = rock.porosity === undefined ? POROSITY : bandOf(rock.porosity, '1');
  const centre = rockEnvelope(mass.centre, density.centre, porosity.centre);
  const isReefRock = density === GRAIN_DENSITY && porosity === POROSITY && mass.low === mass.centre && mass.high === mass.centre;
  const { down, up } = isReefRock ? REEF_SPREAD : spreadOf(mass, density, porosity);
  return {
    low: centre / down,
    centre,
    high: centre * up,
    basis: rock.grainDensity === undefined || rock.porosity === undefined ? 'derived' : 'measured',
  };
}

/** How many times less and more an envelope may be, by the errors of what it is worked out from. */
function spreadOf(mass: Band, density: Band, porosity: Band): { readonly down: number; readonly up: number } {
  const solid: Band = { ...exactly(1 - porosity.centre), low: 1 - porosity.high, high: 1 - porosity.low };
  return {
    down: Math.exp(together(logDown(mass), logUp(density), logUp(solid))),
    up: Math.exp(together(logUp(mass), logDown(density), logDown(solid))),
  };
}

/** The same for rock of which nothing but its mass is told, and that exactly. */
const REEF_SPREAD = spreadOf(exactly(1), GRAIN_DENSITY, POROSITY);

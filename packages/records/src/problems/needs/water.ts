import { salinityFromSpecificGravity } from '@commensal/core';
import { figureOf, shown } from '../figures.js';
import type { RecordCheck } from '../suspicion.js';

/** `temperature-outside-limits`: what it should be given lies within what it survives. */
export const temperatureOutsideLimits: RecordCheck = (record) => {
  const wanted = figureOf(record.needs?.temperature, 'Cel');
  const limits = figureOf(record.needs?.temperatureLimits, 'Cel');
  if (wanted === undefined || limits === undefined || (wanted.low >= limits.low && wanted.high <= limits.high)) return [];
  return [
    {
      problem: {
        code: 'temperature-outside-limits',
        pointer: '/needs/temperature',
        found: `needs.temperature goes from ${shown(wanted.low)} to ${shown(wanted.high)} Cel, needs.temperatureLimits from ${shown(limits.low)} to ${shown(limits.high)} Cel`,
        allowed: 'the temperature it should have must lie within its limits',
        fix: 'Correct the one that is wrong; look whether the two have changed places.',
      },
      reads: ['/needs/temperatureLimits'],
    },
  ];
};

/** Specific gravities from fresh water to brine; no practical salinity of a marine animal is so low. */
const GRAVITIES = [1, 1.035] as const;

/** Hydrometers for aquaria are read, and mostly made, for this temperature. */
const READ_AT_CEL = 25;

const asSalinity = (gravity: number): string => shown(salinityFromSpecificGravity(gravity, READ_AT_CEL, READ_AT_CEL));

/** `gravity-for-salinity`: hydrometers read 1.025 where the salinity is 33. */
export const gravityForSalinity: RecordCheck = (record) => {
  const salinity = figureOf(record.needs?.salinity, '1');
  if (salinity === undefined || salinity.low < GRAVITIES[0] || salinity.high > GRAVITIES[1]) return [];
  const { low, high } = salinity;
  const isOne = low === high;
  return [
    {
      problem: {
        code: 'gravity-for-salinity',
        pointer: '/needs/salinity',
        found: `needs.salinity is ${isOne ? low : `${low} to ${high}`}, which looks like a specific gravity`,
        allowed: 'it is practical salinity, about 30 to 37 in the sea',
        fix: `Convert it: at ${READ_AT_CEL} degrees Celsius that is about ${isOne ? asSalinity(low) : `${asSalinity(low)} to ${asSalinity(high)}`}.`,
      },
    },
  ];
};

import type { RecordCheck, Suspicion } from '../suspicion.js';
import { DEFENDED, HAZARDOUS, LONG_SNOUTS, membershipIn } from './known-groups.js';

/** `long-snout-missing`: without the flag the jaw would count as gape. */
export const longSnoutMissing: RecordCheck = (record) => {
  const member = membershipIn(record, LONG_SNOUTS);
  if (member === undefined || record.shape === undefined || record.shape.longSnout !== undefined) return [];
  return [
    {
      problem: {
        code: 'long-snout-missing',
        pointer: '/shape',
        found: `shape has no "longSnout", and ${member.name} has ${LONG_SNOUTS.trait}`,
        allowed: 'such species say whether the jaw tells of the gape',
        fix: 'Add "longSnout" with the value true, or with false and a note where this species is otherwise.',
      },
      reads: ['/taxon'],
      doubts: ['/shape/longSnout', '/shape/lowerJaw', '/shape/gapeWidth'],
    },
  ];
};

/** `defence-missing`: without the figure a mouth would count as wide enough for a body that spreads. */
export const defenceMissing: RecordCheck = (record) =>
  DEFENDED.flatMap((group): Suspicion[] => {
    const member = membershipIn(record, group);
    if (member === undefined || record.shape === undefined || record.shape.defendedDepth !== undefined) return [];
    return [
      {
        problem: {
          code: 'defence-missing',
          pointer: '/shape',
          found: `shape has no "defendedDepth", and ${member.name} has ${group.trait}`,
          allowed: 'such species say how deep they are when they defend themselves',
          fix: 'Add "defendedDepth", the whole depth over standard length, with an honest basis; where this species has no such defence, say so in an exception.',
        },
        doubts: ['/shape/defendedDepth'],
      },
    ];
  });

/** `hazard-missing`: absence from a list of dangers is no proof of harmlessness. */
export const hazardMissing: RecordCheck = (record) =>
  HAZARDOUS.flatMap((group): Suspicion[] => {
    const member = membershipIn(record, group);
    if (member === undefined || record.hazards?.some(({ kind }) => kind === group.kind) === true) return [];
    return [
      {
        problem: {
          code: 'hazard-missing',
          pointer: member.pointer,
          found: `the record names no hazard of the kind "${group.kind}", and ${member.name} has ${group.trait}`,
          allowed: 'what can hurt a hand must be said',
          fix: `Add an entry of the kind "${group.kind}" to "hazards"; where this species is known to be harmless, say so in an exception.`,
        },
      },
    ];
  });

/**
 * The rules on pairs as expressions of a general JSON rule interpreter (json-logic-js), over flat rows made beforehand. They ask about today and
 * the centre only: no growth, no errors, no doubts, no findings.
 */
import { appetite, familyBatch, gape, lengthOn, rivalry, water } from '@commensal/core';
import jsonLogic from 'json-logic-js';

const of = (path) => ({ var: path });
const times = (...factors) => ({ '*': factors });

const EXPRESSIONS = [
  // gape
  {
    and: [
      { '<=': [times(of('other.length'), of('other.depth')), times(of('one.length'), of('one.gape'))] },
      { '<=': [times(of('other.length'), of('one.cap')), of('one.length')] },
    ],
  },
  // appetite
  {
    and: [
      { '!=': [of('one.kind'), of('other.kind')] },
      { in: [of('other.form'), of('one.harms')] },
      { '<=': [of('other.length'), times(of('one.length'), of('one.upToShare'))] },
    ],
  },
  // rivalry
  {
    and: [
      { '==': [of('one.form'), of('other.form')] },
      {
        '>=': [
          {
            if: [
              { '==': [of('one.kind'), of('other.kind')] },
              of('one.ownKind'),
              { '==': [of('one.genus'), of('other.genus')] },
              { max: [of('one.toGenus'), of('one.toKin')] },
              { '==': [of('one.kin'), of('other.kin')] },
              of('one.toKin'),
              of('one.toOthers'),
            ],
          },
          2,
        ],
      },
      { '>=': [of('one.length'), times(0.95, of('other.length'))] },
    ],
  },
  // water
  {
    '>': [{ max: [0, { '-': [of('one.coolest'), of('other.warmest')] }, { '-': [of('other.coolest'), of('one.warmest')] }] }, 0.5],
  },
  // familyBatch
  {
    and: [
      { '==': [of('one.kin'), of('other.kin')] },
      { '<': [of('one.entry'), of('other.entry')] },
      { '>=': [{ max: [of('one.toKin'), of('other.toKin')] }, 1] },
    ],
  },
];

/** The same rules of this package, which answer for the whole span, with errors, doubts, dates and findings. */
export const PAIR_RULES = [gape, appetite, rivalry, water, familyBatch];

/** A flat row an animal, with its length on a day. */
export const rowsOf = ({ animals, day: today }, day = today) =>
  animals.map((animal) => {
    const { kind, entryDay } = animal;
    const { conduct } = kind.record;
    const length = lengthOn(animal, day);
    return {
      kind: kind.id,
      genus: kind.genus,
      kin: kind.kinGroup,
      form: kind.form,
      entry: entryDay ?? today,
      length: Number.isNaN(length) ? 0 : length,
      depth: kind.depthPerTotal?.centre ?? 0,
      gape: kind.gapeClass === 'notGapeLimited' ? 0 : (kind.swallow?.centre ?? 0) / (kind.totalPerStandard?.centre ?? 1),
      cap: (kind.totalPerStandard?.centre ?? 1) / 0.7,
      harms: (conduct?.harms ?? []).flatMap(({ what }) => what.map((target) => target.replace(/^(small-|slow-)/, '').replace(/e?s$/, ''))),
      upToShare: conduct?.harms?.[0]?.upToShare ?? 1,
      ownKind: kind.pugnacity?.ownKind ?? 0,
      toGenus: kind.pugnacity?.genus ?? 0,
      toKin: kind.pugnacity?.kin ?? 0,
      toOthers: kind.pugnacity?.others ?? 0,
      coolest: kind.temperatureCel?.low ?? 24,
      warmest: kind.temperatureCel?.high ?? 26,
    };
  });

/** How often one of the expressions holds, over all ordered pairs. */
export function interpretPairs(rows) {
  let hits = 0;
  for (const one of rows) {
    for (const other of rows) {
      if (one === other) continue;
      for (const expression of EXPRESSIONS) if (jsonLogic.apply(expression, { one, other })) hits += 1;
    }
  }
  return hits;
}

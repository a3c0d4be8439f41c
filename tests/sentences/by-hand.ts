/** What a plan can say, one of each sort: which of it comes up in a plan hangs on more than its wishes. */
import { namesIn, type Names } from '@commensal/report';
import type { Change, OrderReason, Situation } from '@commensal/schema';
import { sample } from './situations.js';

const situation: Situation = {
  $schema: 'https://commensal.example/schema/1.0/situation.schema.json',
  date: '2027-03-01',
  tank: { water: { value: 240, unit: 'L' } },
  residents: [
    { id: 'bosun', name: 'Bosun', species: 'dascyllus-trimaculatus' },
    { id: 'lion', species: 'pterois-volitans' },
  ],
};

export const namesByHand = (language: string): Names => namesIn(situation, sample, language);

/** One of each kind; the compiler sees to it that none is missing. */
const CHANGES: { readonly [Kind in Change['kind']]: readonly Extract<Change, { kind: Kind }>[] } = {
  'more-rock': [{ kind: 'more-rock', massKg: 8 }],
  'larger-tank': [{ kind: 'larger-tank', lengthCm: 150, widthCm: 60, waterL: 400 }],
  'warmer-or-cooler': [{ kind: 'warmer-or-cooler', lowCel: 18, highCel: 22 }],
  'more-experience': [{ kind: 'more-experience', careTier: 3 }],
  'provision-made': [{ kind: 'provision-made', provisions: ['live-copepods', 'tight-lid'] }],
  'without-resident': [
    { kind: 'without-resident', animal: 'bosun' },
    { kind: 'without-resident', animal: 'lion' },
  ],
  'instead-of': [{ kind: 'instead-of', species: ['gramma-loreto', 'amphiprion-ocellaris'] }],
  'this-length': [{ kind: 'this-length', species: 'zebrasoma-flavescens', lengthCm: 6.5 }],
  'this-count': [
    { kind: 'this-count', species: 'amphiprion-ocellaris', count: 1 },
    { kind: 'this-count', species: 'amphiprion-ocellaris', count: 2 },
  ],
  'not-before': [{ kind: 'not-before', date: '2027-05-02' }],
  'rock-relaid': [{ kind: 'rock-relaid', date: '2027-04-15' }],
  'food-offered': [
    { kind: 'food-offered', food: 'copepods' },
    { kind: 'food-offered', food: 'scales-and-mucus' },
  ],
  'without-copper': [{ kind: 'without-copper' }],
};

export const changesByHand: readonly Change[] = Object.values(CHANGES).flat();

const day = { date: '2027-04-02' };
const dayBefore = { date: '2027-02-03' };
const days = (value: number) => ({ value, unit: 'd' });
const [own, other] = [{ species: 'zebrasoma-flavescens' }, { species: 'gramma-loreto' }];

export const reasonsByHand: readonly OrderReason[] = [
  { message: 'order.fromToday', data: { day } },
  { message: 'order.notBefore', data: { day } },
  { message: 'order.onceCycled', data: { day } },
  { message: 'order.oldEnough', data: { day } },
  { message: 'order.betterLater', data: { day } },
  { message: 'order.watchedFirst', data: { watch: days(30), day } },
  { message: 'order.afterResidents', data: { day, gap: days(28) } },
  { message: 'order.gap', data: { gap: days(28), dayBefore } },
  { message: 'order.oneLot', data: { gap: days(30), dayBefore } },
  { message: 'order.nitrifiers', data: { gap: days(58), dayBefore } },
  { message: 'order.scavengersFirst', data: {} },
  { message: 'order.sameFamily', data: { kinGroup: { keys: ['damselfish'] } } },
  { message: 'order.pugnaciousLater', data: {} },
  ...['swallows', 'tears', 'fights', 'locks-out', 'rules', 'ammonia', 'other'].map(
    (word): OrderReason => ({ message: 'order.mustFollow', data: { own, other, reason: { keys: [word] } } }),
  ),
  { message: 'order.interchangeable', data: {} },
  ...[{ animal: 'bosun' }, { animal: 'lion' }, other].map(
    (predator): OrderReason => ({ message: 'order.latest', data: { day, prey: own, predator } }),
  ),
];

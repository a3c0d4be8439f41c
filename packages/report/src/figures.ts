import type { Datum, Finding } from '@commensal/schema';
import { say } from './catalogue.js';
import { sayLabel } from './labels.js';
import { sayAnimal, sayChoice, sayDate, sayList, sayNumber, sayQuantity, type Voice } from './voice.js';

/** A finding, or the reason for an order: what figures can be read from. */
export type Told = Pick<Finding, 'message' | 'data'> & { readonly when?: string | null };

/** One figure, ready to print. */
export interface Figure {
  readonly slot: string;
  readonly label: string;
  readonly value: string;
}

/** Where the data hold `wantsLow` and `wantsHigh`, both are one figure, `wantsRange`. */
function rangeOf(name: string, data: Told['data']): string | undefined {
  const base = name.replace(/(Low|High)$/, '');
  return base !== name && `${base}Low` in data && `${base}High` in data ? `${base}Range` : undefined;
}

/** The names of the figures, as the labels in the catalogues go by them; `when` where there is a day. */
export function figureSlots({ data, when }: Told): string[] {
  const names = Object.keys(data).map((name) => rangeOf(name, data) ?? name);
  return [...new Set([...(typeof when === 'string' ? ['when'] : []), ...names])];
}

/** The rule that a message belongs to; a third party's is `vendor/rule`. */
const ruleOf = (message: string): string => message.split('.')[0] ?? '';

/** Figures that may say no more than another one does, and which. */
const TWINS: Readonly<Record<string, string>> = { needed: 'lacking', wantsMost: 'wants' };

/** Whether another figure tells the same: its twin does, or the data name the first day. */
function isTwice(slot: string, { data, when }: Told): boolean {
  if (slot === 'when') return Object.values(data).some(({ date }) => date === when);
  const twin = data[TWINS[slot] ?? ''];
  return twin !== undefined && JSON.stringify(twin) === JSON.stringify(data[slot]);
}

/** All that a finding stands on, with labels, in the order of its data. */
export function figuresOf(voice: Voice, told: Told): Figure[] {
  const slots = figureSlots(told).filter((slot) => !isTwice(slot, told));
  return slots.map((slot) => ({
    slot,
    label: sayLabel(voice.catalogue, ruleOf(told.message), slot),
    value: slot === 'when' && typeof told.when === 'string' ? sayDate(voice, told.when) : sayValue(voice, slot, told.data),
  }));
}

function sayValue(voice: Voice, slot: string, data: Told['data']): string {
  const own = data[slot];
  if (own !== undefined) return sayDatum(voice, slot, own);
  const [low = '', high = ''] = ['Low', 'High'].map((end) => sayDatum(voice, slot, data[slot.replace(/Range$/, end)] ?? {}));
  return low === high ? low : say(voice.catalogue, 'name.range', { low, high });
}

function sayDatum(voice: Voice, slot: string, { value, unit, date, keys, animal, species }: Datum): string {
  if (value !== undefined) return unit === undefined || unit === '1' ? sayNumber(voice, value) : sayQuantity(voice, value, unit);
  if (date !== undefined) return sayDate(voice, date);
  if (keys !== undefined)
    return sayList(
      voice,
      keys.map((word) => sayChoice(voice, slot, word)),
    );
  if (animal !== undefined) return sayAnimal(voice, animal);
  return species === undefined ? '' : voice.names.speciesName(species);
}

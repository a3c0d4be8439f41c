import type { Datum } from '@commensal/schema';

/** Two digits: what goes in is no surer. */
export const twoDigits = (value: number): number => Number(value.toPrecision(2));

/** A range as two figures of a finding. */
export const range = (
  name: string,
  { low, high }: { readonly low: number; readonly high: number },
  unit: string,
): Record<string, Datum> => ({
  [`${name}Low`]: { value: twoDigits(low), unit },
  [`${name}High`]: { value: twoDigits(high), unit },
});

/**
 * The id under which an animal of a group stands in its document: what stands before the sign of number.
 *
 * @example
 * lineId('chromis#3'); // 'chromis'
 */
export const lineId = (id: string): string => id.split('#')[0] as string;

/** How much an animal swims; crawling and fixed animals need no swimming room. */
export type Activity = 'perches' | 'cruises' | 'roams' | 'crawls' | 'fixed';

/** Adult lengths of free length, width and height that an animal wants. */
export interface RoomInLengths {
  readonly length: number;
  readonly width: number;
  readonly height: number;
}

/** What a tank must offer. */
export interface SwimmingNeed {
  readonly lengthCm: number;
  readonly widthCm: number;
  readonly waterL: number;
}

/**
 * Length, width and water that an adult wants: so many of its own lengths along, across and upward (common practice, no source).
 *
 * @param adultCm total length of an adult
 * @example
 * swimmingNeed(20, { length: 7, width: 2, height: 2 }); // { lengthCm: 140, widthCm: 40, waterL: 224 }
 */
export function swimmingNeed(adultCm: number, room: RoomInLengths): SwimmingNeed {
  return { lengthCm: alongFor(adultCm, room), widthCm: acrossFor(adultCm, room), waterL: waterFor(adultCm, room) };
}

const alongFor = (adultCm: number, room: RoomInLengths): number => adultCm * room.length;
const acrossFor = (adultCm: number, room: RoomInLengths): number => adultCm * room.width;
const waterFor = (adultCm: number, room: RoomInLengths): number =>
  (alongFor(adultCm, room) * acrossFor(adultCm, room) * adultCm * room.height) / 1000;

/**
 * What a tank has over what an adult wants: the smallest of the shares of length, width and water. The longer the adult, the smaller it is, to the last digit.
 *
 * @example
 * swimmingShare(70, 60, 224, 20, { length: 7, width: 2, height: 2 }); // 0.5
 */
export function swimmingShare(tankCm: number, tankWidthCm: number, tankL: number, adultCm: number, room: RoomInLengths): number {
  return Math.min(tankCm / alongFor(adultCm, room), tankWidthCm / acrossFor(adultCm, room), tankL / waterFor(adultCm, room));
}

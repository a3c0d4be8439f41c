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
  const lengthCm = adultCm * room.length;
  const widthCm = adultCm * room.width;
  return { lengthCm, widthCm, waterL: (lengthCm * widthCm * adultCm * room.height) / 1000 };
}

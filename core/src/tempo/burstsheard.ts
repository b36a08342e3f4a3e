/** What a take says of this player's reach: how fast each limb played, and whether it was in time. */
import { audibleMs } from '../finding/index.ts';
import { burstsOf, type PlayedBurst } from '../kit/index.ts';
import type { MeasuredStroke } from '../measurement/index.ts';
import { median } from '../quantiles.ts';
import { msOfSec } from '../units.ts';
import { TARGET_SHARE, TOLERANCE_FACTORS } from './parameters.ts';

/** What of a measured stroke is looked at. */
export type HeardStroke = Pick<MeasuredStroke, 'limb' | 'status' | 'expectedSec' | 'errorMs'>;

/**
 * The bursts of a take by limb, as fast as they were to be played. A limb was clean when 85 % of its strokes that could be heard were there and
 * within the medium tolerance; what could not be heard counts neither way.
 * @param strokes of a measurement, in any order.
 * @returns nothing for limbs that were not heard.
 */
export function burstsHeard(strokes: readonly HeardStroke[]): readonly PlayedBurst[] {
  const told = strokes.filter(({ status }) => status !== 'notAudible').sort((a, b) => a.expectedSec - b.expectedSec);
  const gaps = told.slice(1).flatMap(({ expectedSec }, i) => (expectedSec > told[i]!.expectedSec ? [expectedSec - told[i]!.expectedSec] : []));
  if (gaps.length === 0) return [];
  const allowedMs = TOLERANCE_FACTORS.medium * audibleMs(msOfSec(median(gaps)));
  const inTime = ({ status, errorMs }: HeardStroke) => status === 'played' && (errorMs === null || Math.abs(errorMs) <= allowedMs);
  const lengthSec = told.at(-1)!.expectedSec - told[0]!.expectedSec + APART_SEC;
  return (['R', 'L', 'K', 'H'] as const).flatMap((limb) => {
    const own = told.filter((stroke) => stroke.limb === limb);
    const clean = own.filter(inTime).length >= TARGET_SHARE * own.length;
    const played = own.map(({ expectedSec }) => ({ limb, drum: limb, timeSec: expectedSec }));
    return own.length < LEAST_STROKES ? [] : burstsOf(played, lengthSec, clean);
  });
}

/** Fewest strokes of a limb that say anything. Assumption: the eight of a clean run. */
const LEAST_STROKES = 8;

/** From the last stroke of a take to the first of it, as if it went round: too long for a burst. */
const APART_SEC = 60;

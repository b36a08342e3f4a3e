/** When and how loud, each in a word or two, as every page and picture says it. */
import type { TimeWord, VolumeWord } from '../../finding/index.ts';

export const volumeNames: Readonly<Record<VolumeWord, string>> = {
  clearlySofter: 'clearly softer',
  littleSofter: 'a little softer',
  alike: 'alike',
  littleLouder: 'a little louder',
  clearlyLouder: 'clearly louder',
};

export const timeNames: Readonly<Record<TimeWord, string>> = {
  early: 'early',
  littleEarly: 'a little early',
  perhapsEarly: 'perhaps early',
  inTime: 'in time',
  perhapsLate: 'perhaps late',
  littleLate: 'a little late',
  late: 'late',
};

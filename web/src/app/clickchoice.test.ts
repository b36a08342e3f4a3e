import { clicksOf, readClickWay } from '@evenhand/core/session';
import { expect, test } from 'vitest';
import {
  ACCENT_ORDER,
  CLICK_ORDER,
  type ClickParts,
  clickingOf,
  hasAccents,
  partsOf,
  SOUND_ORDER,
  SWING_ORDER,
  swings,
  VOLUME_ORDER,
} from './clickchoice.ts';

const ALL: readonly ClickParts[] = CLICK_ORDER.flatMap((way) =>
  SWING_ORDER.flatMap((swing) =>
    ACCENT_ORDER.flatMap((accents) =>
      SOUND_ORDER.map((sound, k) => ({ way, swing, accents, volume: VOLUME_ORDER[k % VOLUME_ORDER.length]!, sound })),
    ),
  ),
);

const EVERY_BEAT: ClickParts = { way: 'beats', swing: 'straight', accents: 'one', volume: 'usual', sound: 'asSet' };

test('what is chosen comes back as it was chosen, from the block and from a file (says: issue 8, plain properties of a block)', () => {
  for (const parts of ALL) {
    const clicking = clickingOf(parts);
    const meant = { ...parts, swing: swings(parts) ? parts.swing : 'straight', accents: hasAccents(parts) ? parts.accents : 'one' };
    expect(partsOf(clicking)).toEqual(meant);
    expect(readClickWay(JSON.parse(JSON.stringify(clicking.click ?? null)))).toEqual(clicking.click ?? null);
  }
});

test('every beat, as usual, is nothing to keep', () => {
  expect(clickingOf(EVERY_BEAT)).toEqual({});
  expect(partsOf({})).toEqual(EVERY_BEAT);
});

test('swung off-beats fall on the third triplet, 6 dB softer, in their own sound (arithmetic: 2/3 of a beat of 24,000 frames)', () => {
  const { click } = clickingOf({ ...EVERY_BEAT, way: 'offBeats', swing: 'triplet', volume: 'softer', sound: 'knock' });
  const layout = {
    sampleRateHz: 48_000,
    tempoBpm: 120,
    beatsPerBar: 4,
    startFrame: 0,
    countInBars: 0,
    firstBar: 0,
    barCount: 1,
    roundBars: 1,
    click: click!,
  };
  expect(clicksOf(layout).map(({ frame, gainDb, sound }) => [frame, gainDb, sound])).toEqual(
    [0, 1, 2, 3].map((beat) => [24_000 * beat + 16_000, -6, 'knock']),
  );
});

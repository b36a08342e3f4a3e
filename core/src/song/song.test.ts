import { existsSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { parseMidi } from 'midi-file';
import { describe, expect, test } from 'vitest';
import { seededRandom } from '../random.ts';
import { renderStrokes } from '../sound/index.ts';
import { say } from '../words/index.ts';
import { barCountOf, doubled, findBeats, fromTaps, halved, inTempo, loopOf, onOffbeat, withOne } from './index.ts';

const RATE_HZ = 22_050;

/** A kick on 1, a snare on the other beats, from 0.2 s on. */
function played(tempoBpmAt: (beat: number) => number, durationSec: number): Float32Array {
  const strokes: { timeSec: number; surface: string; levelDb: number }[] = [];
  for (let timeSec = 0.2, beat = 0; timeSec < durationSec; timeSec += 60 / tempoBpmAt(beat), beat++) {
    strokes.push({ timeSec, surface: beat % 4 === 0 ? 'kick' : 'snare', levelDb: -20 });
  }
  return renderStrokes(strokes, { sampleRateHz: RATE_HZ, durationSec, random: seededRandom(1), strikesPerDrum: 2 });
}

describe('made signals', () => {
  test.each([87.3, 120, 133.3])(
    'arithmetic: beats %f a minute are found within 0.02 %, each within 5 ms (a hop of the curve), 1 on the kick',
    (tempoBpm) => {
      const { value, problems } = findBeats(
        played(() => tempoBpm, 24),
        RATE_HZ,
      );
      expect(problems).toEqual([]);
      expect(Math.abs(value!.tempoBpm / tempoBpm - 1)).toBeLessThan(0.0002);
      expect(value!.steady).toBe(true);
      const ones = value!.beatsSec.filter((_, i) => i % 4 === value!.firstOne);
      for (const sec of ones) expect(Math.abs(((((sec - 0.2) / (240 / tempoBpm) + 0.5) % 1) - 0.5) * (240 / tempoBpm))).toBeLessThan(0.005);
    },
  );

  test('law: louder changes nothing but rounding', () => {
    const soft = played(() => 110, 12);
    const [a, b] = [soft, soft.map((sample) => 3 * sample)].map((samples) => findBeats(samples, RATE_HZ).value!);
    expect(b!.tempoBpm).toBeCloseTo(a!.tempoBpm, 3);
  });

  test('arithmetic: from 100 to 112 within a minute: said to move, and the beats follow within 30 ms', () => {
    const samples = played((beat) => 100 + (12 * beat) / 100, 57);
    const { value, problems } = findBeats(samples, RATE_HZ);
    expect(problems.map(({ code }) => code)).toEqual(['song-tempo-moves']);
    expect(say(problems[0]!)).toMatch(/The tempo moves between 1/);
    const truth: number[] = [];
    for (let timeSec = 0.2, beat = 0; timeSec < 57; timeSec += 60 / (100 + (12 * beat) / 100), beat++) truth.push(timeSec);
    const off = truth.slice(2, -2).map((sec) => Math.min(...value!.beatsSec.map((beat) => Math.abs(beat - sec))));
    expect(off.filter((sec) => sec < 0.03).length / off.length).toBeGreaterThan(0.95);
  });

  test('noise, a held note, silence and a few seconds have no beat, and the sentence says what to do', () => {
    const random = seededRandom(3);
    const length = 12 * RATE_HZ;
    const [noise, note, silence] = [() => 0.4 * random() - 0.2, (i: number) => 0.3 * Math.sin(0.03 * i), () => 0].map((make) =>
      Float32Array.from({ length }, (_, i) => make(i)),
    );
    for (const samples of [noise!, note!, silence!]) expect(findBeats(samples, RATE_HZ).problems).toMatchObject([{ code: 'song-no-beat' }]);
    const short = findBeats(
      played(() => 120, 5),
      RATE_HZ,
    );
    expect(short.value).toBeNull();
    expect(say(short.problems[0]!)).toMatch(/lasts 5 seconds.*Tap along/);
  });
});

/** Three performances to a click, one each of three drummers; all of them are in bench/song. */
const FILES = [
  ['drummer1_session3_13_rock_115_beat_4-4.mid', 115],
  ['drummer7_session2_54_soul-motown_148_beat_4-4.mid', 148],
  ['drummer8_session2_3_afrobeat_114_beat_4-4.mid', 114],
] as const;
/** The keys struck in a MIDI file of one tempo, by the package `midi-file`. */
function notesIn(bytes: Uint8Array): readonly { readonly timeSec: number; readonly key: number; readonly velocity: number }[] {
  const { header, tracks } = parseMidi(bytes);
  const tempo = tracks.flat().find((event) => event.type === 'setTempo');
  const tickSec = (tempo?.microsecondsPerBeat ?? 500_000) / 1e6 / header.ticksPerBeat!;
  return tracks.flatMap((track) => {
    let tick = 0;
    return track.flatMap((event) => {
      tick += event.deltaTime;
      return event.type === 'noteOn' && event.velocity > 0 ? [{ timeSec: tick * tickSec, key: event.noteNumber, velocity: event.velocity }] : [];
    });
  });
}

const folder = new URL('../../../../shared/reference/groove-midi/', import.meta.url);
if (!existsSync(folder)) process.stderr.write('song.test.ts skips drummers: ../shared/reference/groove-midi is not here\n');

describe.skipIf(!existsSync(folder))('groove-midi (Gillick 2019): drummers who heard a click, through our own drums', () => {
  test.each(FILES)('%s: the tempo of the click, %i, within 0.5 %: at most 60 ms over four bars at 120', (file, tempoBpm) => {
    const strokes = notesIn(readFileSync(new URL(file, folder)))
      .filter(({ timeSec }) => timeSec < 25)
      .map(({ timeSec, key, velocity }) => ({
        timeSec,
        surface: key === 36 ? 'kick' : key === 38 || key === 40 ? 'snare' : 'hi-hat',
        levelDb: -14 + 40 * Math.log10(velocity / 127),
      }));
    const samples = renderStrokes(strokes, { sampleRateHz: RATE_HZ, durationSec: 25, random: seededRandom(1), strikesPerDrum: 2 });
    const { value } = findBeats(samples, RATE_HZ);
    expect(Math.abs(value!.tempoBpm / tempoBpm - 1)).toBeLessThan(0.005);
  });
});

describe('told by the player', () => {
  test('arithmetic: taps 0.5 s apart from 1.25 s are 120, and the first of them is 1', () => {
    const taps = Array.from({ length: 8 }, (_, i) => 1.25 + 0.5 * i);
    const { value } = fromTaps(taps, 30);
    expect(value!.tempoBpm).toBeCloseTo(120, 9);
    expect(value!.beatsSec[0]).toBeCloseTo(0.25, 9);
    expect(value!.firstOne).toBe(2);
  });

  test('law: taps that jitter by 20 ms, with one missing and one slip, are within 1 % over sixteen (least squares: 20 ms over 14 beats)', () => {
    fc.assert(
      fc.property(fc.integer({ min: 60, max: 180 }), fc.nat(1000), (tempoBpm, seed) => {
        const random = seededRandom(seed);
        const taps = Array.from({ length: 16 }, (_, i) => 2 + (60 / tempoBpm) * (i + (i === 9 ? 0.4 : 0)) + 0.04 * (random() - 0.5)).filter(
          (_, i) => i !== 5,
        );
        expect(Math.abs(fromTaps(taps, 60).value!.tempoBpm / tempoBpm - 1)).toBeLessThan(0.01);
      }),
      { numRuns: 50, seed: 4 },
    );
  });

  test('four taps are too few, and it says how many', () => {
    expect(say(fromTaps([0, 1, 2, 3], 30).problems[0]!)).toMatch(/5 times or more/);
  });

  test('arithmetic: half of 120 is 60 on the same 1; doubled again it is as before; the offbeat lies between', () => {
    const beats = withOne(inTempo(120, { phaseSec: 0.3, durationSec: 10 }), 3, 4);
    expect(beats.firstOne).toBe(3);
    const half = halved(beats);
    expect(half.tempoBpm).toBe(60);
    expect(half.beatsSec[half.firstOne]).toBe(beats.beatsSec[3]);
    expect(doubled(half).beatsSec[doubled(half).firstOne]).toBe(beats.beatsSec[3]);
    expect(onOffbeat(beats).beatsSec[0]).toBeCloseTo(0.55, 9);
  });

  test('arithmetic: bars 3 to 4 at 120 from 0.3 s with 1 there: 4.3 to 8.3 s, two bars', () => {
    const beats = inTempo(120, { phaseSec: 0.3, durationSec: 20 });
    expect(barCountOf(beats, 4)).toBe(9);
    const { value } = loopOf(beats, { firstBar: 3, lastBar: 4 });
    expect(value).toMatchObject({ bars: 2 });
    expect([value!.startSec, value!.endSec, value!.tempoBpm].map((each) => Number(each.toFixed(6)))).toEqual([4.3, 8.3, 120]);
    expect(say(loopOf(beats, { firstBar: 3, lastBar: 10 }).problems[0]!)).toMatch(/has 9 whole bars/);
  });
});

/** The click worklet against arithmetic: no frame off, whatever the tempo, and with the page at a standstill. */
import { expect, test } from '@playwright/test';

test.beforeEach(({ page }) => page.goto('/e2e/machine/rig.html'));

for (const { tempoBpm, sampleRateHz } of [
  { tempoBpm: 60, sampleRateHz: 48_000 },
  { tempoBpm: 97.3, sampleRateHz: 44_100 },
  { tempoBpm: 208, sampleRateHz: 48_000 },
]) {
  test(`every click of ${tempoBpm} bpm at ${sampleRateHz} Hz sounds on its frame (says: arithmetic, round(k · 60 · rate / tempo))`, async ({
    page,
  }) => {
    const beats = Array.from({ length: 16 }, (_, k) => Math.round((k * 60 * sampleRateHz) / tempoBpm) + 777);
    const clicks = beats.map((frame, k) => ({ frame, voice: k % 4 === 0 ? 'bar' : 'beat', gainDb: k % 2 }) as const);
    const { onsets, reports } = await page.evaluate(([list, options]) => window.rig.renderClicks(list, options), [
      clicks,
      { sampleRateHz, lengthFrames: beats.at(-1)! + sampleRateHz },
    ] as const);
    expect(onsets.map(({ frame }) => frame)).toEqual(beats);
    expect(reports).toEqual(clicks.map(({ frame, voice }) => ({ frame, voice, sounded: true })));
    // 1 dB more is a factor of 1.122 (arithmetic: 10^(1/20)); the second and third beat are the same voice.
    expect(onsets[1]!.value / onsets[2]!.value).toBeCloseTo(10 ** (1 / 20), 5);
  });
}

test('clicks sound on while the page does nothing, and one that comes too late says so', async ({ page }) => {
  const heard = await page.evaluate(async () => {
    const { value: engine, problems } = await window.rig.openEngine({ microphone: 'none' });
    if (!engine) throw new Error(problems[0]?.code);
    const first = engine.nextFrame() + Math.round(0.4 * engine.sampleRateHz);
    const frames = Array.from({ length: 8 }, (_, k) => first + Math.round((k * engine.sampleRateHz) / 10));
    const sounded: { frame: number; sounded: boolean }[] = [];
    const all = new Promise<void>((resolve) => engine.onClick((click) => sounded.push(click) === frames.length + 1 && resolve()));
    engine.schedule([{ frame: -1, voice: 'bar', gainDb: 0 }]);
    engine.schedule(frames.map((frame) => ({ frame, voice: 'beat', gainDb: 0 })));
    await new Promise((resolve) => setTimeout(resolve));
    const from = performance.now();
    while (performance.now() - from < 1100);
    await all;
    const audible = engine.audibleFrame();
    const next = engine.nextFrame();
    await engine.close();
    await engine.close();
    return { frames, sounded, audible, next, microphone: engine.microphone };
  });
  expect(heard.sounded).toEqual([
    { frame: -1, voice: 'bar', sounded: false },
    ...heard.frames.map((frame) => ({ frame, voice: 'beat', sounded: true })),
  ]);
  expect(heard.microphone).toBe(null);
  // What is heard lies behind what is computed, by less than half a second on any output.
  expect(heard.audible).toBeLessThanOrEqual(heard.next);
  expect(heard.audible).toBeGreaterThan(heard.next - 24_000);
});

test('sound that the device interrupts is told, and goes on by itself', async ({ page }) => {
  const result = await page.evaluate(async () => {
    const contexts: AudioContext[] = [];
    window.AudioContext = class extends AudioContext {
      constructor(options?: AudioContextOptions) {
        super(options);
        contexts.push(this);
      }
    };
    const { value: engine } = await window.rig.openEngine({ microphone: 'none' });
    const told = new Promise<string>((resolve) => engine!.onProblem(({ code }) => resolve(code)));
    await contexts[0]!.suspend();
    const code = await told;
    engine!.schedule([{ frame: engine!.nextFrame() + engine!.sampleRateHz, voice: 'beat', gainDb: 0 }]);
    const sounded = await new Promise<boolean>((resolve) => engine!.onClick((click) => resolve(click.sounded)));
    await engine!.close();
    return { code, sounded };
  });
  expect(result).toEqual({ code: 'device-audio-interrupted', sounded: true });
});

test('what is cancelled does not sound', async ({ page }) => {
  const sounded = await page.evaluate(async () => {
    const { value: engine } = await window.rig.openEngine({ microphone: 'none' });
    const first = engine!.nextFrame() + engine!.sampleRateHz;
    const last = first + engine!.sampleRateHz / 2;
    const frames: number[] = [];
    const ended = new Promise<void>((resolve) => engine!.onClick(({ frame }) => frames.push(frame - first) && frame === last && resolve()));
    engine!.schedule([0, 1000, 2000].map((offset) => ({ frame: first + offset, voice: 'beat', gainDb: 0 })));
    engine!.cancelClicks(first + 1000);
    engine!.schedule([{ frame: last, voice: 'bar', gainDb: -6 }]);
    await ended;
    await engine!.close();
    return { frames, end: last - first };
  });
  expect(sounded.frames).toEqual([0, sounded.end]);
});

test('the capture worklet hands on every sample with its frame (says: the samples that went in)', async ({ page }) => {
  const samples = Array.from({ length: 128 * 37 }, (_, i) => Math.fround(Math.sin(i * 0.37)));
  const blocks = await page.evaluate(([list]) => window.rig.captureSamples(list, 48_000), [samples] as const);
  for (const block of blocks) expect(block.samples).toEqual(samples.slice(block.frame, block.frame + block.samples.length));
  const received = blocks.reduce((sum, block) => sum + block.samples.length, 0);
  expect(blocks.map(({ frame }) => frame)).toEqual(blocks.map((_, i) => 512 * i));
  // The last block is not full and stays behind when the context ends.
  expect(received).toBe(512 * Math.floor((128 * 37) / 512));
});

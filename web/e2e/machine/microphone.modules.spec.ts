/** The whole way from a microphone to strokes: Chromium's fake microphone plays a file, the ear hears it within a millisecond. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from '@playwright/test';
import { CHROMIUM_ARGUMENTS, chromiumPath } from '../../../playwright.config.ts';
import { microphoneOf } from '../planted.ts';
import { strokesAt, writeMicrophoneFile } from './sounds.ts';

/** A second and a half of quiet first, for the first milliseconds of the device are not clean; then uneven gaps, so that no other alignment fits. */
const TIMES = [1.5, 1.7, 1.85, 2.05, 2.3, 2.42, 2.6, 2.85, 3.0, 3.2, 3.33, 3.55];
const FILE = join(mkdtempSync(join(tmpdir(), 'evenhand-microphone-')), 'strokes.wav');
writeMicrophoneFile(FILE, strokesAt(TIMES, { sampleRateHz: 44_100, durationSec: 6 }));

test.use({
  launchOptions: {
    executablePath: chromiumPath(),
    args: [...CHROMIUM_ARGUMENTS, ...microphoneOf(FILE)],
  },
});

/** Records for four seconds from the opening of the microphone on. */
function record() {
  return async () => {
    const ear = window.rig.startEar({ storeName: 'microphone' });
    const { value: engine, problems } = await window.rig.openEngine();
    if (!engine) throw new Error(problems[0]?.code);
    const takeId = window.rig.newId();
    const fromFrame = engine.nextFrame();
    ear.listenTo(engine);
    const lateMs: number[] = [];
    ear.onStroke(({ frame }) => lateMs.push(((engine.nextFrame() - frame) / engine.sampleRateHz) * 1000));
    let loudest = 0;
    ear.onMeter(({ peak }) => {
      loudest = Math.max(loudest, peak);
    });
    await ear.openTake({ ...window.rig.takeMeta(takeId, engine.sampleRateHz, fromFrame), wallMs0: engine.wallMsOf(fromFrame) });
    const heard = await ear.closeTake({ takeId, toFrame: fromFrame + 4 * engine.sampleRateHz, clicksSec: [] });
    const { microphone, sampleRateHz } = engine;
    await engine.close();
    ear.close();
    return { heard, problems: problems.map(({ code }) => code), microphone, sampleRateHz, loudest, lateMs, wallMs0: engine.wallMsOf(fromFrame) };
  };
}

test('strokes played into the microphone are heard within 1 ms of each other’s true distance, none more, none less (says: the file that is played)', async ({
  page,
}) => {
  await page.goto('/e2e/machine/rig.html');
  let result = await page.evaluate(record());
  // Chromium may insert 10 ms of zeros, most often on a busy machine; then the take must say so, and is made again.
  for (let again = 0; again < 8 && result.heard.problems.some(({ code }) => code === 'take-gaps'); again++) result = await page.evaluate(record());
  expect(result.heard.problems).toEqual([]);
  const heard = result.heard.value!.strokes.filter(({ levelDb }) => levelDb > -40).map(({ timeSec }) => timeSec);
  expect(heard).toHaveLength(TIMES.length);
  for (const [i, sec] of heard.entries()) expect(Math.abs(sec - heard[0]! - (TIMES[i]! - TIMES[0]!))).toBeLessThan(0.001);
  expect(result.heard.value!.durationSec).toBeCloseTo(4, 2);
  // From the stroke's sample to the page: half of them within the 80 ms of DESIGN.md, on a machine that may be busy.
  expect([...result.lateMs].sort((a, b) => a - b)[Math.floor(result.lateMs.length / 2)]).toBeLessThan(80);
  expect(result.loudest).toBeGreaterThan(0.3);
  expect(result.microphone).toMatchObject({ echoCancellation: false, noiseSuppression: false, autoGainControl: false });
  expect(result.problems).toEqual([]);
});

test('a microphone that is pulled out is told, and the take ends with what there is', async ({ page }) => {
  await page.goto('/e2e/machine/rig.html');
  const result = await page.evaluate(async () => {
    const streams: MediaStream[] = [];
    const open = navigator.mediaDevices.getUserMedia.bind(navigator.mediaDevices);
    navigator.mediaDevices.getUserMedia = async (constraints) => {
      streams.push(await open(constraints));
      return streams[0]!;
    };
    const ear = window.rig.startEar({ storeName: 'pulled' });
    const { value: engine } = await window.rig.openEngine();
    const told = new Promise<string>((resolve) => engine!.onProblem(({ code }) => resolve(code)));
    const fromFrame = engine!.nextFrame();
    ear.listenTo(engine!);
    const first = new Promise<void>((resolve) => ear.onMeter(() => resolve()));
    await ear.openTake(window.rig.takeMeta('pulled', engine!.sampleRateHz, fromFrame));
    await first;
    const track = streams[0]!.getAudioTracks()[0]!;
    track.stop();
    // The page's own stop() fires no event; the device's end does.
    track.dispatchEvent(new Event('ended'));
    const code = await told;
    engine!.schedule([{ frame: engine!.nextFrame() + engine!.sampleRateHz, voice: 'beat', gainDb: 0 }]);
    const clicked = await new Promise<boolean>((resolve) => engine!.onClick(({ sounded }) => resolve(sounded)));
    const heard = await ear.closeTake({ takeId: 'pulled', toFrame: engine!.nextFrame(), clicksSec: [] });
    await engine!.close();
    return { code, clicked, problems: heard.problems.map((problem) => problem.code) };
  });
  expect({ code: result.code, clicked: result.clicked }).toEqual({ code: 'microphone-lost', clicked: true });
});

/** Takes in a real browser, given by hand: heard as Node hears them, stored while they come, whole after a crash. */
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { encodeFlac } from '@evenhand/adapters/flac';
import { readSoundFile } from '@evenhand/adapters/sound-file';
import { renderClick } from '@evenhand/core/sound';
import { hear } from '@evenhand/core/stroke';
import { fileClock } from '@evenhand/core/take';
import { expect, test } from '@playwright/test';
import { killAll, startChromium } from './chromium.ts';
import { strokesAt } from './sounds.ts';

const RATE = 48_000;
/** Sixteenths at 110 bpm from 0.5 s on. */
const TIMES = Array.from({ length: 24 }, (_, k) => 0.5 + (k * 60) / 110 / 4);
const SOUND = strokesAt(TIMES, { sampleRateHz: RATE, durationSec: 4.5 });
const asText = (samples: Float32Array): string => Buffer.from(samples.buffer, samples.byteOffset, samples.byteLength).toString('base64');
const samplesOf = (text: string): Float32Array => new Float32Array(new Uint8Array(Buffer.from(text, 'base64')).buffer);
/** Megabytes that are to be equal are compared by this, so that a failure can be read. */
const hashOf = (what: unknown): string =>
  createHash('sha256')
    .update(what instanceof Float32Array ? asText(what) : JSON.stringify(what))
    .digest('hex');
const heardInNode = (samples: Float32Array) => hear({ samples, clock: fileClock(RATE) });

/** Every planted stroke is heard within a millisecond. What else an ear may hear in noise is not what these tests are about. */
function expectPlanted(heardSec: readonly number[]): void {
  for (const planted of TIMES) expect(heardSec.filter((sec) => Math.abs(sec - planted) < 0.001)).toHaveLength(1);
}

test.beforeEach(({ page }) => page.goto('/e2e/machine/rig.html'));
test.afterEach(killAll);

test('the Worker hears what Node hears, to the last bit, and stores every sample', async ({ page }) => {
  const result = await page.evaluate(
    async ([text, rate]) => {
      const sound = window.rig.samplesOf(text);
      const store = await window.rig.storeOf('worker-and-node');
      const ear = window.rig.startEar({ storeName: 'worker-and-node' });
      const source = window.rig.handSource();
      const takeId = window.rig.newId();
      const provisional: number[] = [];
      const peaks: number[] = [];
      ear.onStroke(({ frame }) => provisional.push(frame));
      ear.onMeter(({ peak }) => peaks.push(peak));
      ear.listenTo(source);
      // Sound that came just before the take was opened counts, as far as it belongs to it.
      source.give(sound.slice(0, 9000), 1000);
      await ear.openTake(window.rig.takeMeta(takeId, rate, 1000));
      source.give(sound.slice(9000), 10_000);
      const heard = await ear.closeTake({ takeId, toFrame: 1000 + sound.length, clicksSec: [0.25] });
      const stored = await store.take(takeId);
      const records = (await store.records()).value!;
      return {
        heard,
        stored: window.rig.textOfSamples(stored.value!.samples),
        contextFrame0: stored.value!.contextFrame0,
        records,
        provisional,
        peaks,
      };
    },
    [asText(SOUND), RATE] as const,
  );
  const { strokes, candidates } = heardInNode(SOUND);
  expectPlanted(strokes.map(({ timeSec }) => timeSec));
  expect(result.heard.problems).toEqual([]);
  expect(result.heard.value!.strokes).toEqual(strokes);
  expect(hashOf(result.heard.value!.candidates)).toBe(hashOf(candidates));
  expect(hashOf(samplesOf(result.stored))).toBe(hashOf(SOUND));
  expect(result.contextFrame0).toBe(1000);
  expect(result.records).toHaveLength(1);
  expect(result.records[0]).toMatchObject({ kind: 'take', v: 1, body: { durationSec: 4.5, stored: 'pcm', clicksSec: [0.25], problems: [] } });
  expect((result.records[0]!.body as { strokes: unknown[] }).strokes).toEqual(strokes);
  // 4.5 s at about 20 readings a second; the loudest is the first sample of a stroke.
  expect(result.peaks.length).toBeGreaterThan(60);
  expect(Math.max(...result.peaks)).toBeCloseTo(
    SOUND.reduce((peak, value) => Math.max(peak, Math.abs(value)), 0),
    6,
  );
  expect(result.provisional.length).toBeGreaterThan(TIMES.length / 2);
});

test('a round of a take is held against its exercise, and a file is heard without being kept', async ({ page }) => {
  const result = await page.evaluate(
    async ([text, rate]) => {
      const ear = window.rig.startEar({ storeName: 'measured' });
      const heard = await ear.hearFile({ takeId: 'file', samples: window.rig.samplesOf(text), sampleRateHz: rate });
      const measured = await ear.measureTake({ takeId: 'file', cycle: window.rig.cycleRLRR(), tempoBpm: 110 });
      const unknown = await ear.measureTake({ takeId: 'never heard', cycle: window.rig.cycleRLRR(), tempoBpm: 110 });
      const silent = await ear.hearFile({ takeId: 'silent', samples: new Float32Array(rate), sampleRateHz: rate });
      const noWav = await ear.hearFile({ takeId: 'text', bytes: new TextEncoder().encode('no sound at all') });
      const codes = [unknown, silent, noWav].map(({ value, problems }) => [value, ...problems.map(({ code }) => code)]);
      return { heard, measured, codes, records: (await (await window.rig.storeOf('measured')).records()).value };
    },
    [asText(SOUND), RATE] as const,
  );
  expectPlanted(result.heard.value!.strokes.map(({ timeSec }) => timeSec));
  expectPlanted(result.measured.value!.measurement.strokes.flatMap(({ playedSec }) => playedSec ?? []));
  expect(result.measured.value!.measurement.trackedBpm).toBeCloseTo(110, 0);
  expect(result.measured.value!.findings.length).toBeGreaterThan(0);
  expect(result.codes).toEqual([
    [null, 'take-not-stored'],
    [null, 'take-silent'],
    [null, 'take-not-audio'],
  ]);
  expect(result.records).toEqual([]);
});

test('a FLAC file is heard as Node hears it, to the last bit, and text is told to be text', async ({ page }) => {
  const rate = 22_050;
  const flac = await encodeFlac(strokesAt([0.3, 0.8], { sampleRateHz: rate, durationSec: 1.2 }), rate);
  const result = await page.evaluate(
    async ([base64]) => {
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
      const { value } = await window.rig.readSoundFile(new Blob([bytes]), 'flac');
      const text = await window.rig.readSoundFile(new Blob(['no sound at all']), 'text');
      const heard = await window.rig.startEar({ storeName: 'flac' }).hearFile(value!);
      return { heard, text: text.problems };
    },
    [Buffer.from(flac).toString('base64')] as const,
  );
  const inNode = (await readSoundFile(flac)).value!;
  const { strokes, candidates } = hear(inNode);
  expect(strokes).toHaveLength(2);
  expect(result.heard.value).toMatchObject({ sampleRateHz: rate, durationSec: inNode.samples.length / rate });
  expect(hashOf([result.heard.value!.strokes, result.heard.value!.candidates])).toBe(hashOf([strokes, candidates]));
  expect(result.text).toEqual([{ code: 'take-not-audio', severity: 'refused', params: { looksLike: 'text' } }]);
});

test('a click of another sound that bleeds into a take tells how long it takes, is taken out, and asks for headphones (says: where it was put)', async ({
  page,
}) => {
  const latency = Math.round(0.0731 * RATE);
  // Two bars counted in before the first stroke, at 220 so that the strokes of SOUND lie on its halves.
  const clicks = Array.from({ length: 20 }, (_, k) => ({
    frame: Math.round(0.1 * RATE + (k * 60 * RATE) / 220),
    voice: k % 4 === 0 ? ('bar' as const) : ('beat' as const),
  }));
  const lead = Math.round((8 * 60 * RATE) / 220 + 0.1 * RATE - 0.5 * RATE) + latency;
  const withClick = new Float32Array(lead + SOUND.length);
  withClick.set(SOUND.subarray(0, lead), 0);
  for (let i = 0; i < lead; i++) withClick[i] = SOUND[i % Math.round(0.4 * RATE)]!;
  withClick.set(SOUND, lead);
  for (const { frame, voice } of clicks) {
    for (const [i, value] of renderClick(voice, RATE, 'knock').entries()) withClick[frame + latency + i]! += 0.8 * value;
  }
  const result = await page.evaluate(
    async ([text, rate, told]) => {
      const sound = window.rig.samplesOf(text);
      const store = await window.rig.storeOf('bleed');
      const ear = window.rig.startEar({ storeName: 'bleed' });
      const source = window.rig.handSource();
      ear.listenTo(source);
      await ear.openTake(window.rig.takeMeta('bleed', rate));
      source.give(sound, 0);
      const heard = await ear.closeTake({
        takeId: 'bleed',
        toFrame: sound.length,
        clicksSec: told.map(({ frame }) => frame / rate),
        clickVoices: told.map(({ voice }) => voice),
        clickSound: 'knock',
      });
      return { heard, record: (await store.records()).value![0]! };
    },
    [asText(withClick), RATE, clicks] as const,
  );
  const { latencySec, strokes } = result.heard.value!;
  expect(Math.abs(latencySec! - latency / RATE)).toBeLessThan(0.0001);
  expect((result.record.body as { clock: object }).clock).toMatchObject({ latencyFrom: 'bleed', latencySec });
  expect(result.record.body).toMatchObject({ clickSound: 'knock' });
  for (const planted of TIMES) expect(strokes.filter(({ timeSec }) => Math.abs(timeSec - lead / RATE - planted) < 0.001)).toHaveLength(1);
  // Nothing of the click itself is left that is louder than the noise, which is at −70 dB.
  expect(strokes.filter(({ timeSec, levelDb }) => timeSec < (lead + 0.4 * RATE) / RATE && levelDb > -65)).toEqual([]);
  expect(result.heard.problems.map(({ code }) => code)).toContain('take-click-heard');
});

test('a loopback finds its clicks to a tenth of a millisecond, and says when there are none (says: where they were put)', async ({ page }) => {
  const latency = Math.round(0.0874 * RATE);
  const clicks = Array.from({ length: 8 }, (_, k) => ({ frame: Math.round((0.2 + 0.45 * k) * RATE), voice: 'beat' as const }));
  const quiet = strokesAt([], { sampleRateHz: RATE, durationSec: 4.5 });
  const sound = quiet.slice();
  for (const { frame, voice } of clicks) for (const [i, value] of renderClick(voice, RATE).entries()) sound[frame + latency + i]! += 0.02 * value;
  const [found, none] = await page.evaluate(
    async ([texts, rate, told]) => {
      const ear = window.rig.startEar({ storeName: 'loop' });
      const answers = [];
      for (const text of texts) {
        const source = window.rig.handSource();
        ear.listenTo(source);
        const samples = window.rig.samplesOf(text);
        const answer = ear.measureLoop({ clicks: told, sampleRateHz: rate, fromFrame: 0, toFrame: samples.length });
        source.give(samples, 0);
        answers.push(await answer);
      }
      return answers;
    },
    [[asText(sound), asText(quiet)], RATE, clicks] as const,
  );
  expect(Math.abs(found!.value!.latencySec - latency / RATE)).toBeLessThan(0.0001);
  expect(found!.value!.spreadSec).toBeLessThan(0.001);
  expect(none!.problems.map(({ code }) => code)).toEqual(['click-not-heard']);
});

test('a stretch that never arrived is silence of its own length, and the take says so', async ({ page }) => {
  const gap = { from: Math.round(2.05 * RATE), to: Math.round(2.06 * RATE) };
  const result = await page.evaluate(
    async ([text, rate, { from, to }]) => {
      const sound = window.rig.samplesOf(text);
      const ear = window.rig.startEar({ storeName: 'gap' });
      const source = window.rig.handSource();
      ear.listenTo(source);
      await ear.openTake(window.rig.takeMeta('gap', rate));
      source.give(sound.slice(0, from), 0);
      source.give(sound.slice(to), to);
      return ear.closeTake({ takeId: 'gap', toFrame: sound.length, clicksSec: [] });
    },
    [asText(SOUND), RATE, gap] as const,
  );
  const withHole = SOUND.slice().fill(0, gap.from, gap.to);
  expect(result.problems).toEqual([
    { code: 'take-gaps', severity: 'doubtful', at: gap.from / RATE, params: { gapCount: 1, longestSec: (gap.to - gap.from) / RATE } },
  ]);
  expect(result.value!.strokes).toEqual(heardInNode(withHole).strokes);
});

test('a Worker that falls over is started again, and the take goes on with a gap', async ({ page }) => {
  const half = Math.round(2.4 * RATE);
  const back = Math.round(2.6 * RATE);
  const result = await page.evaluate(
    async ([text, rate, from, to]) => {
      const sound = window.rig.samplesOf(text);
      const workers: Worker[] = [];
      window.Worker = class extends Worker {
        constructor(url: string | URL, options?: WorkerOptions) {
          super(url, options);
          workers.push(this);
        }
      };
      const store = await window.rig.storeOf('crash');
      const ear = window.rig.startEar({ storeName: 'crash' });
      const source = window.rig.handSource();
      const told: string[] = [];
      ear.onProblem(({ code, severity }) => told.push(`${code} ${severity}`));
      ear.listenTo(source);
      await ear.openTake(window.rig.takeMeta('crash', rate));
      source.give(sound.slice(0, from), 0);
      await window.rig.untilStored(store, 'crash', from - rate / 2);
      const pending = ear.measureTake({ takeId: 'crash', cycle: window.rig.cycleRLRR(), tempoBpm: 110 });
      workers[0]!.dispatchEvent(new ErrorEvent('error'));
      const answer = (await pending).problems.map(({ code }) => code);
      source.give(sound.slice(to), to);
      const heard = await ear.closeTake({ takeId: 'crash', toFrame: sound.length, clicksSec: [] });
      const kept = window.rig.textOfSamples((await store.take('crash')).value!.samples);
      return { told, answer, heard, kept, records: (await store.records()).value!.length, workers: workers.length };
    },
    [asText(SOUND), RATE, half, back] as const,
  );
  expect({ told: result.told, answer: result.answer, workers: result.workers, records: result.records }).toEqual({
    told: ['ear-stopped doubtful'],
    answer: ['ear-stopped'],
    workers: 2,
    records: 1,
  });
  expect(result.heard.problems.map(({ code }) => code)).toContain('take-gaps');
  const kept = samplesOf(result.kept);
  // Up to half a second before the fall was not stored yet; everything else is as it was played.
  expect(hashOf(kept.slice(0, half - RATE / 2))).toBe(hashOf(SOUND.slice(0, half - RATE / 2)));
  expect(hashOf(kept.slice(back))).toBe(hashOf(SOUND.slice(back)));
  expect(result.heard.value!.strokes).toEqual(heardInNode(kept).strokes);
});

test('a disk that fills up in the middle of a take is told, and the take is heard all the same', async ({ page, context }) => {
  const session = await context.newCDPSession(page);
  await session.send('Storage.overrideQuotaForOrigin', { origin: new URL(page.url()).origin, quotaSize: 300_000 });
  const result = await page.evaluate(
    async ([text, rate]) => {
      const sound = window.rig.samplesOf(text);
      const ear = window.rig.startEar({ storeName: 'full-take' });
      const source = window.rig.handSource();
      const told: string[] = [];
      ear.onProblem(({ code }) => told.push(code));
      ear.listenTo(source);
      const opened = await ear.openTake(window.rig.takeMeta('full', rate));
      source.give(sound, 0);
      const heard = await ear.closeTake({ takeId: 'full', toFrame: sound.length, clicksSec: [] });
      const measured = await ear.measureTake({ takeId: 'full', cycle: window.rig.cycleRLRR(), tempoBpm: 110 });
      return { told, opened, heard, measured: measured.value?.measurement.strokes.length };
    },
    [asText(SOUND), RATE] as const,
  );
  expect([...result.told, ...result.opened.problems.map(({ code }) => code)].length).toBeGreaterThan(0);
  expect(result.heard.value!.strokes).toEqual(heardInNode(SOUND).strokes);
  expect(result.measured).toBeGreaterThanOrEqual(TIMES.length);
});

test('kill -9 in the middle of a take: what was acknowledged is there, and the take is completed at the next start', async ({ baseURL }) => {
  const profile = mkdtempSync(join(tmpdir(), 'evenhand-kill-'));
  const rigPage = `${baseURL}e2e/machine/rig.html`;
  // Seven chunks of half a second, each rounded up to whole blocks of 512 frames.
  const enough = 7 * 512 * Math.ceil(RATE / 2 / 512);
  const first = await startChromium(profile);
  const page = await first.browser.contexts()[0]!.newPage();
  await page.goto(rigPage);
  await page.evaluate(
    async ([text, rate, frames]) => {
      const store = await window.rig.storeOf('killed');
      const ear = window.rig.startEar({ storeName: 'killed' });
      const source = window.rig.handSource();
      ear.listenTo(source);
      await ear.openTake(window.rig.takeMeta('killed', rate));
      source.give(window.rig.samplesOf(text).slice(0, frames), 0);
      await window.rig.untilStored(store, 'killed', frames);
      await store.append([window.rig.note('acknowledged')]);
    },
    [asText(SOUND), RATE, enough] as const,
  );
  await first.kill();

  const second = await startChromium(profile);
  const again = await second.browser.contexts()[0]!.newPage();
  await again.goto(rigPage);
  const result = await again.evaluate(async () => {
    const store = await window.rig.storeOf('killed');
    const ear = window.rig.startEar({ storeName: 'killed' });
    const [recovered, twice] = [await ear.recoverTakes(), await ear.recoverTakes()];
    const records = (await store.records()).value!;
    return { recovered, twice, texts: window.rig.textsOf(records), takes: records.filter(({ kind }) => kind === 'take') };
  });
  await second.kill();
  rmSync(profile, { recursive: true, force: true });
  expect(result.texts).toEqual(['acknowledged']);
  expect(result.recovered.problems).toEqual([
    { code: 'take-cut-off', severity: 'doubtful', at: enough / RATE, params: { durationSec: enough / RATE } },
  ]);
  expect(result.recovered.value!.map(({ strokes }) => strokes)).toEqual([heardInNode(SOUND.slice(0, enough)).strokes]);
  expect(result.takes).toHaveLength(1);
  expect(result.takes[0]!.id).toBe('killed');
  expect(result.twice).toEqual({ value: [], problems: [] });
});

test('a take that another tab is recording is left alone', async ({ page, context }) => {
  const other = await context.newPage();
  await other.goto('/e2e/machine/rig.html');
  await other.evaluate(
    async ([text, rate]) => {
      const ear = window.rig.startEar({ storeName: 'tabs' });
      const source = window.rig.handSource();
      ear.listenTo(source);
      await ear.openTake(window.rig.takeMeta('tabs', rate));
      source.give(window.rig.samplesOf(text), 0);
      await window.rig.untilStored(await window.rig.storeOf('tabs'), 'tabs', rate);
    },
    [asText(SOUND), RATE] as const,
  );
  const recover = () => window.rig.startEar({ storeName: 'tabs' }).recoverTakes();
  expect(await page.evaluate(recover)).toEqual({ value: [], problems: [] });
  await other.close();
  await expect.poll(async () => (await page.evaluate(recover)).value?.map(({ takeId }) => takeId)).toEqual(['tabs']);
});

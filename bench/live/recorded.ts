/** A take that a page records from a microphone of development takes, and how what its Worker heard is held against what Node hears. */
import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readSoundFile } from '../../adapters/src/sound-file/index.ts';
import { type Heard, hear } from '../../core/src/stroke/index.ts';
import { fileClock, joinSamples, writeWav } from '../../core/src/take/index.ts';

/** Chromium's fake microphone runs at this rate. */
const RATE_HZ = 44_100;
const REFERENCE = join('..', 'shared', 'reference', 'takes');

/** Development takes one after the other: kick, snare, toms, noise, a room. Gives the file's path. */
export async function writeMicrophone(): Promise<string> {
  const parts: Float32Array[] = [new Float32Array(2 * RATE_HZ).map((_, i) => (i % 2 ? 1e-4 : -1e-4))];
  for (const name of readdirSync(REFERENCE).filter((file) => /^D(01|02|06|07|09).*\.flac$/.test(file))) {
    const { value } = await readSoundFile(readFileSync(join(REFERENCE, name)));
    if (value?.clock.sampleRateHz === RATE_HZ) parts.push(value.samples);
  }
  const file = join(mkdtempSync(join(tmpdir(), 'evenhand-live-')), 'microphone.wav');
  writeFileSync(file, writeWav(joinSamples(parts), RATE_HZ, { bits: 16 }));
  return file;
}

/** What the page gives of a take. */
export interface Recorded {
  readonly problems: readonly string[];
  readonly rateHz: number;
  /** What the Worker heard, as text. */
  readonly heard: string;
  /** The samples that were stored, in base64. */
  readonly sound: string;
  /** How often the sound told meanwhile that time goes on. */
  readonly timed: number;
}

/** Runs in the page: records so many seconds, tells once it does, and blocks the page 300 ms in every 500 meanwhile if that is asked for. */
export async function record([sec, blocked]: readonly [number, boolean]): Promise<Recorded> {
  const ear = window.rig.startEar({ storeName: 'live' });
  const { value: engine, problems } = await window.rig.openEngine();
  if (!engine) throw new Error(problems[0]?.code);
  const takeId = window.rig.newId();
  const fromFrame = engine.nextFrame();
  ear.listenTo(engine);
  await ear.openTake({ ...window.rig.takeMeta(takeId, engine.sampleRateHz, fromFrame), wallMs0: engine.wallMsOf(fromFrame) });
  let timed = 0;
  engine.onTime(() => timed++);
  window.tell!('recording');
  let over = false;
  const closing = ear.closeTake({ takeId, toFrame: fromFrame + sec * engine.sampleRateHz, clicksSec: [] }).finally(() => (over = true));
  while (blocked && !over) {
    for (const until = performance.now() + 300; performance.now() < until; );
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
  const heard = await closing;
  const stored = await (await window.rig.storeOf('live')).take(takeId);
  await engine.close();
  ear.close();
  const { strokes, candidates } = heard.value!;
  return {
    problems: heard.problems.map(({ code }) => code),
    rateHz: engine.sampleRateHz,
    heard: JSON.stringify({ strokes, candidates }),
    sound: window.rig.textOfSamples(stored.value!.samples),
    timed,
  };
}

type Told = Pick<Heard, 'strokes' | 'candidates'>;

export interface Held {
  /** Strokes that Node hears in what was stored. */
  readonly strokeCount: number;
  /** Strokes and candidates are the same text. */
  readonly same: boolean;
  readonly sameTimes: boolean;
  /** How far the strength of a candidate differs at most. */
  readonly furthest: number;
  /** Every sample of the take is there. */
  readonly whole: boolean;
}

/** What the Worker heard against what Node hears in the samples that were stored. */
export function againstNode({ heard, sound, rateHz }: Recorded, sec: number): Held {
  const samples = new Float32Array(Uint8Array.from(Buffer.from(sound, 'base64')).buffer);
  const inNode = hear({ samples, clock: fileClock(rateHz) });
  const worker = JSON.parse(heard) as Told;
  return {
    strokeCount: inNode.strokes.length,
    same: heard === JSON.stringify({ strokes: inNode.strokes, candidates: inNode.candidates }),
    sameTimes: timesAndVolumes(worker) === timesAndVolumes(inNode),
    furthest: furthest(worker, inNode),
    whole: samples.length === sec * rateHz,
  };
}

const timesAndVolumes = ({ strokes, candidates }: Told): string =>
  JSON.stringify([
    strokes.map(({ timeSec, levelDb, drum }) => [timeSec, levelDb, drum]),
    candidates.map(({ timeSec, volumeDb }) => [timeSec, volumeDb]),
  ]);

const furthest = (a: Told, b: Told): number =>
  Math.max(...a.candidates.map(({ strength }, i) => Math.abs(strength - (b.candidates[i]?.strength ?? 0))));

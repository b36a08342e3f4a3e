/** Puts the app's machine room within reach of tests: they call `rig` inside the page. */
import { canonicalJson, type DiaryRecord, fold } from '@evenhand/core/diary';
import type { ExpectedCycle } from '@evenhand/core/exercise';
import { rational } from '@evenhand/core/rational';
import type { Click, SoundedClick } from '../../src/audio/click.ts';
import { type Engine, openEngine } from '../../src/audio/engine.ts';
import { addWorklets, captureNode, clickNode } from '../../src/audio/worklets.ts';
import { startPacker } from '../../src/backup/client.ts';
import type { DatabaseStep } from '../../src/store/database.ts';
import { newId, openStore, type Store, writtenNow } from '../../src/store/store.ts';
import { readSoundFile, startEar } from '../../src/worker/client.ts';
import type { TakeMeta } from '../../src/worker/protocol.ts';

/** Clicks rendered without a device: where they begin, and what the worklet said of each. */
async function renderClicks(clicks: readonly Click[], { sampleRateHz, lengthFrames }: { sampleRateHz: number; lengthFrames: number }) {
  const context = new OfflineAudioContext({ length: lengthFrames, sampleRate: sampleRateHz });
  await addWorklets(context);
  const node = clickNode(context, clicks);
  const reports: SoundedClick[] = [];
  const allReported = new Promise<void>((resolve) => {
    node.port.onmessage = ({ data }: MessageEvent<readonly SoundedClick[]>) => {
      reports.push(...data);
      if (reports.length >= clicks.length) resolve();
    };
  });
  node.connect(context.destination);
  const [rendered] = await Promise.all([context.startRendering(), allReported]);
  return { onsets: onsetsOf(rendered.getChannelData(0), sampleRateHz), reports };
}

/**
 * Clicks sounded by a running engine while something happens to the page: where they begin in what the click's node gives, heard by the capture
 * worklet beside the loudspeaker. Frames from the first click's; blocks of sound that are missing would show as a frame that is off.
 */
async function soundedLive(clicks: readonly Click[], meanwhile: (engine: Engine, firstFrame: number) => Promise<void>) {
  const heard: { readonly frame: number; readonly samples: Float32Array }[] = [];
  const { connect } = AudioNode.prototype as unknown as { connect: (this: AudioNode, ...given: unknown[]) => AudioNode };
  (AudioNode.prototype as unknown as { connect: typeof connect }).connect = function (...given) {
    if (this instanceof AudioWorkletNode && this.numberOfInputs === 0) {
      const ear = captureNode(this.context);
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = ({ data }) => heard.push(data);
      ear.port.postMessage({ port: port2 }, [port2]);
      connect.call(connect.call(this, ear), this.context.destination);
    }
    return connect.apply(this, given);
  };
  const { value: engine } = await openEngine({ microphone: 'none' });
  AudioNode.prototype.connect = connect as never;
  const first = engine!.nextFrame() + Math.round(0.5 * engine!.sampleRateHz);
  engine!.schedule(clicks.map((click) => ({ ...click, frame: click.frame + first })));
  await meanwhile(engine!, first);
  await new Promise((resolve) => setTimeout(resolve, 200));
  await engine!.close();
  const sound = new Float32Array(Math.max(...heard.map(({ frame, samples }) => frame + samples.length)));
  for (const { frame, samples } of heard) sound.set(samples, frame);
  return onsetsOf(sound, engine!.sampleRateHz).map(({ frame }) => frame - first);
}

/** First samples of sound after at least 30 ms of silence: a click lasts 35 ms, so that beats are told apart. */
function onsetsOf(sound: Float32Array, sampleRateHz: number): readonly { readonly frame: number; readonly value: number }[] {
  const found: { frame: number; value: number }[] = [];
  let lastSound = Number.NEGATIVE_INFINITY;
  sound.forEach((value, frame) => {
    if (value === 0) return;
    if (frame - lastSound > 0.03 * sampleRateHz) found.push({ frame, value });
    lastSound = frame;
  });
  return found;
}

/** Samples sent through the capture worklet without a device, put together again by the frames it told. */
async function captureSamples(samples: readonly number[], sampleRateHz: number) {
  const context = new OfflineAudioContext({ length: samples.length, sampleRate: sampleRateHz });
  await addWorklets(context);
  const buffer = new AudioBuffer({ length: samples.length, sampleRate: sampleRateHz });
  buffer.copyToChannel(Float32Array.from(samples), 0);
  const source = new AudioBufferSourceNode(context, { buffer });
  const node = captureNode(context);
  source.connect(node).connect(context.destination);
  const { port1, port2 } = new MessageChannel();
  const blocks: { frame: number; samples: number[] }[] = [];
  const full = Math.floor(samples.length / 512);
  const allSent = new Promise<void>((resolve) => {
    port1.onmessage = ({ data }) => {
      blocks.push({ frame: data.frame, samples: Array.from(data.samples as Float32Array) });
      if (blocks.length === full) resolve();
    };
  });
  const capturing = new Promise((resolve) => {
    node.port.onmessage = resolve;
  });
  node.port.postMessage({ port: port2 }, [port2]);
  source.start();
  await capturing;
  await Promise.all([context.startRendering(), allSent]);
  return blocks;
}

/** A take's own words, beginning at frame 0. */
const takeMeta = (takeId: string, sampleRateHz: number, fromFrame = 0): TakeMeta => ({
  takeId,
  sessionId: null,
  sampleRateHz,
  fromFrame,
  wallMs0: 0,
  latencySec: 0,
  latencyFrom: 'unknown',
  ...writtenNow(),
});

/** A source of sound that is no microphone: samples given by hand, from a frame on, in blocks like the worklet's. */
function handSource() {
  let target: MessagePort | null = null;
  return {
    captureTo(port: MessagePort) {
      target = port;
    },
    give(samples: Float32Array, frame: number) {
      for (let at = 0; at < samples.length; at += 512) target!.postMessage({ frame: frame + at, samples: samples.slice(at, at + 512) });
    },
  };
}

/** Resolves once a take has at least so many frames in the store. */
async function untilStored(store: Store, takeId: string, frames: number): Promise<void> {
  for (;;) {
    const { value } = await store.take(takeId);
    if (value && value.samples.length >= frames) return;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

/** Samples to and from base64, which passes into the page faster than a list of numbers. */
const samplesOf = (text: string): Float32Array<ArrayBuffer> => new Float32Array(Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0)).buffer);

function textOfSamples(samples: Float32Array): string {
  const bytes = new Uint8Array(samples.buffer, samples.byteOffset, samples.byteLength);
  const parts = Array.from({ length: Math.ceil(bytes.length / 8192) }, (_, i) => String.fromCharCode(...bytes.subarray(i * 8192, (i + 1) * 8192)));
  return btoa(parts.join(''));
}

/** Four sixteenths on one drum. */
const cycleRLRR = (): ExpectedCycle => ({
  lengthBeats: rational(1),
  strokes: (['R', 'L', 'R', 'R'] as const).map((limb, index) => ({
    index,
    limb,
    surface: 'snare',
    beat: rational(index, 4),
    accent: false,
    ghost: false,
    buzz: false,
    graceCount: 0,
  })),
});

const note = (text: string) => ({ kind: 'note', ...writtenNow(), body: { text, sessionId: null } }) as const;

async function storeOf(name: string, steps?: readonly DatabaseStep[]): Promise<Store> {
  const { value, problems } = await openStore(name, steps ? { steps } : {});
  if (!value) throw new Error(problems.map(({ code }) => code).join());
  return value;
}

/** Takes that are over, each with a little sound, put straight into the database. @returns their ids. */
async function putSounds(store: Store, count: number): Promise<readonly string[]> {
  const takeIds = Array.from({ length: count }, newId);
  const db = await openRaw(store.name);
  const transaction = db.transaction(['takes', 'flacs'], 'readwrite');
  for (const takeId of takeIds) {
    transaction.objectStore('takes').put({ ...takeMeta(takeId, 48_000), state: 'closed' });
    transaction.objectStore('flacs').put({ takeId, flac: new Uint8Array(60_000) });
  }
  await new Promise((resolve) => {
    transaction.oncomplete = resolve;
  });
  db.close();
  return takeIds;
}

const openRaw = (name: string): Promise<IDBDatabase> =>
  new Promise((resolve, reject) => {
    const request = indexedDB.open(name);
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });

/** What was let go in a diary, each time the takes, and the takes whose sound is there. */
async function thinnedIn(name: string): Promise<{ readonly thinnings: readonly (readonly string[])[]; readonly sounds: readonly string[] }> {
  const store = await storeOf(name);
  const records = (await store.records()).value!;
  const sounds = (await store.soundSizes()).value!.map(({ takeId }) => takeId);
  store.close();
  return { thinnings: records.filter(({ kind }) => kind === 'thinning').map(({ body }) => (body as { takeIds: string[] }).takeIds), sounds };
}

const textsOf = (records: readonly DiaryRecord[] | null): readonly string[] =>
  (records ?? []).flatMap(({ kind, body }) => (kind === 'note' ? [(body as { text: string }).text] : [])).sort();

const rig = {
  canonicalJson,
  captureSamples,
  cycleRLRR,
  fold,
  handSource,
  newId,
  note,
  openEngine,
  openStore,
  putSounds,
  readSoundFile,
  renderClicks,
  soundedLive,
  samplesOf,
  startEar,
  startPacker,
  storeOf,
  takeMeta,
  textOfSamples,
  textsOf,
  thinnedIn,
  untilStored,
  writtenNow,
};

declare global {
  interface Window {
    rig: typeof rig;
    /** Tells the test something without being asked, where a test listens. */
    tell?: (text: string) => void;
  }
}

window.rig = rig;

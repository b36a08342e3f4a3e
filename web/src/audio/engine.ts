/** One audio context and one microphone stream for a whole session: what clicks, what listens, and what time it is. */
import type { Reading } from '@evenhand/core/problem';
import { type ClickSound, USUAL_CLICK } from '@evenhand/core/sound';
import type { DeviceProblem } from '@evenhand/core/take';
import type { Click, ClickOrder, SoundedClick } from './click.ts';
import { audibleFrameOf, nextFrameOf, wallMsOf } from './clock.ts';
import { type GrantedMicrophone, type Microphone, openMicrophone } from './microphone.ts';
import { type Playing, playIn } from './playing.ts';
import { type Plugged, plugged } from './plugged.ts';
import { addWorklets, captureNode, clickNode, clickTables } from './worklets.ts';

export type { Click, ClickVoice, SoundedClick } from './click.ts';
export type { GrantedMicrophone } from './microphone.ts';
export type { Playing } from './playing.ts';

export interface EngineOptions {
  /** `asked` opens the microphone too; `none` clicks only. Default `asked`. */
  readonly microphone?: 'asked' | 'none';
  /** A certain microphone, as in `GrantedMicrophone.deviceId`. */
  readonly deviceId?: string;
  /** What clicks sound like that do not say so themselves, asked whenever some are scheduled. Default the usual sound. */
  readonly clickSound?: () => ClickSound;
}

/** The running sound of one session. Frames are frames of its one audio context, whole numbers. */
export interface Engine {
  readonly sampleRateHz: number;
  /** null when it clicks only, and while the microphone is pulled out. */
  readonly microphone: GrantedMicrophone | null;
  /** What a click that does not say so itself sounds like now. */
  readonly clickSound: ClickSound;
  /** The frame that is about to be computed: the earliest that can still be scheduled, a few milliseconds ahead of what is heard. */
  nextFrame(): number;
  /** The frame that leaves the loudspeaker now, with fraction; draw by this one. */
  audibleFrame(): number;
  /** Milliseconds since 1970 at which a frame is computed, by this moment's clocks. */
  wallMsOf(frame: number): number;
  /** Adds clicks, in any order, as far ahead as wanted (a whole block at once is best: it sounds on when the page is blocked). A click whose frame has passed is not sounded, and says so. */
  schedule(clicks: readonly Click[]): void;
  /** Forgets the clicks from a frame on (default: all that have not begun). */
  cancelClicks(fromFrame?: number): void;
  /** Told of each click once its frame was computed, with whether it sounded. */
  onClick(listener: (click: SoundedClick) => void): () => void;
  /** Told a few times a second that time goes on, by the sound itself: a page out of sight has timers that hardly move, and its sound goes on. */
  onTime(listener: () => void): () => void;
  /** Sends the microphone's sound to a port as `CapturedBlock`s, in place of the port before; see EarClient.listenTo. Nothing without a microphone. */
  captureTo(port: MessagePort): void;
  /** Plays samples (mono, full scale ±1) at their own rate from a frame on, default as soon as possible. */
  play(samples: Float32Array<ArrayBuffer>, sampleRateHz: number, fromFrame?: number): Playing;
  /** Plays samples over and over, without a seam, until they are stopped. */
  playOver(samples: Float32Array<ArrayBuffer>, sampleRateHz: number): Playing;
  /** Told when something goes wrong while running: microphone pulled out, sound interrupted by a call. */
  onProblem(listener: (problem: DeviceProblem) => void): () => void;
  /** Told when the microphone that was pulled out is there again, and heard. */
  onMicrophoneBack(listener: () => void): () => void;
  /** Stops clicks, microphone and context. Doing it twice does no harm. */
  close(): Promise<void>;
}

/** How long a context that may start gets to start. Assumption: ten times what it takes on a slow phone. */
const START_LIMIT_MS = 2000;

/**
 * Starts the sound. Call it from a click or key of the drummer, or browsers keep the context waiting.
 * @returns the engine with what is doubtful about it: without a usable microphone it still clicks (`microphone` null, the problem beside it);
 *   refused only when there is no audio at all.
 */
export async function openEngine({ microphone = 'asked', deviceId, clickSound }: EngineOptions = {}): Promise<Reading<Engine, DeviceProblem>> {
  if (!isSecureContext) return { value: null, problems: [refused('device-not-secure')] };
  if (typeof AudioContext === 'undefined' || typeof AudioWorkletNode === 'undefined') return { value: null, problems: [refused('device-no-audio')] };
  const context = new AudioContext({ latencyHint: 'interactive' });
  void context.resume();
  try {
    await addWorklets(context);
  } catch {
    await context.close();
    return { value: null, problems: [refused('device-no-audio')] };
  }
  const opened = microphone === 'none' ? { value: null, problems: [] } : await openMicrophone(deviceId);
  const { parts, problems } = connect(context, opened.value);
  const waiting = await waitForStart(context);
  const clicksOnly = [...opened.problems, ...problems].map((problem): DeviceProblem => ({ ...problem, severity: 'doubtful' }));
  return { value: engineOf(parts, clickSound), problems: [...clicksOnly, ...waiting] };
}

interface Parts {
  readonly context: AudioContext;
  readonly microphone: Microphone | null;
  readonly clicks: AudioWorkletNode;
  readonly capture: AudioWorkletNode | null;
}

/** A browser that cannot bring a microphone of another sample rate into its context clicks only. */
function connect(context: AudioContext, microphone: Microphone | null): { readonly parts: Parts; readonly problems: readonly DeviceProblem[] } {
  const clicks = clickNode(context);
  clicks.connect(context.destination);
  const clicksOnly: Parts = { context, microphone: null, clicks, capture: null };
  if (!microphone) return { parts: clicksOnly, problems: [] };
  try {
    const capture = captureNode(context);
    context.createMediaStreamSource(microphone.stream).connect(capture).connect(context.destination);
    return { parts: { context, microphone, clicks, capture }, problems: [] };
  } catch {
    for (const track of microphone.stream.getTracks()) track.stop();
    return { parts: clicksOnly, problems: [{ code: 'microphone-busy', severity: 'doubtful', params: {} }] };
  }
}

/** A context that stays still needs a touch or a key; it starts by itself at the next one. */
async function waitForStart(context: AudioContext): Promise<readonly DeviceProblem[]> {
  const started = await new Promise<boolean>((resolve) => {
    const limit = setTimeout(() => resolve(false), START_LIMIT_MS);
    const look = (): void => {
      if (context.state !== 'running') return;
      clearTimeout(limit);
      resolve(true);
    };
    context.addEventListener('statechange', look);
    look();
  });
  if (started) return [];
  for (const name of ['pointerdown', 'keydown']) addEventListener(name, () => void resumeUnlessClosed(context), { once: true });
  return [{ code: 'device-audio-waiting', severity: 'doubtful', params: {} }];
}

const resumeUnlessClosed = async (context: AudioContext): Promise<void> => {
  if (context.state !== 'closed') await context.resume();
};

function engineOf({ context, microphone, clicks, capture }: Parts, clickSound: () => ClickSound = () => USUAL_CLICK): Engine {
  const clicked = new Set<(click: SoundedClick) => void>();
  const timed = new Set<() => void>();
  const troubled = new Set<(problem: DeviceProblem) => void>();
  const returned = new Set<() => void>();
  const tabled = new Set([USUAL_CLICK]);
  const trouble = (problem: DeviceProblem): void => {
    for (const listener of troubled) listener(problem);
  };
  const order = (what: ClickOrder): void => clicks.port.postMessage(what);
  clicks.port.onmessage = ({ data }: MessageEvent<readonly SoundedClick[]>) => {
    for (const click of data) for (const listener of clicked) listener(click);
    for (const listener of timed) listener();
  };
  watch(context, trouble);
  const held = microphone && capture ? heldIn({ context, microphone, capture }, { trouble, returned }) : null;
  return {
    sampleRateHz: context.sampleRate,
    get microphone() {
      return held?.now()?.granted ?? null;
    },
    get clickSound() {
      return clickSound();
    },
    nextFrame: () => nextFrameOf(context),
    audibleFrame: () => audibleFrameOf(context),
    wallMsOf: (frame) => wallMsOf(context, frame),
    schedule(list) {
      const sounding = list.map((click) => ({ sound: clickSound(), ...click }));
      const fresh = [...new Set(sounding.map(({ sound }) => sound))].filter((sound) => !tabled.has(sound));
      for (const sound of fresh) tabled.add(sound);
      if (fresh.length > 0) order({ type: 'tables', tables: clickTables(fresh, context.sampleRate) });
      order({ type: 'schedule', clicks: sounding });
    },
    cancelClicks: (fromFrame = 0) => order({ type: 'cancel', fromFrame }),
    onClick: (listener) => added(clicked, listener),
    onTime: (listener) => added(timed, listener),
    captureTo: (port) => capture?.port.postMessage({ port }, [port]),
    play: (samples, sampleRateHz, fromFrame) => playIn(context, samples, { sampleRateHz, fromFrame: fromFrame ?? nextFrameOf(context) }),
    playOver: (samples, sampleRateHz) => playIn(context, samples, { sampleRateHz, fromFrame: nextFrameOf(context), over: true }),
    onProblem: (listener) => added(troubled, listener),
    onMicrophoneBack: (listener) => added(returned, listener),
    async close() {
      troubled.clear();
      held?.close();
      if (context.state !== 'closed') await context.close();
    },
  };
}

/** A microphone that was pulled out and comes back is heard through the same node, so that a take goes on. */
function heldIn(
  { context, microphone, capture }: { readonly context: AudioContext; readonly microphone: Microphone; readonly capture: AudioWorkletNode },
  { trouble, returned }: { readonly trouble: (problem: DeviceProblem) => void; readonly returned: ReadonlySet<() => void> },
): Plugged {
  return plugged(microphone, {
    connect: (stream) => void context.createMediaStreamSource(stream).connect(capture),
    onLost: () => trouble({ code: 'microphone-lost', severity: 'doubtful', params: {} }),
    onBack: () => {
      for (const listener of returned) listener();
    },
  });
}

/** A call stops the context (`interrupted` on phones), which is set going again as soon as it may. */
function watch(context: AudioContext, trouble: (problem: DeviceProblem) => void): void {
  let wasRunning = context.state === 'running';
  context.addEventListener('statechange', () => {
    const stopped = wasRunning && context.state !== 'running' && context.state !== 'closed';
    wasRunning = context.state === 'running';
    if (!stopped) return;
    trouble({ code: 'device-audio-interrupted', severity: 'doubtful', params: {} });
    void resumeUnlessClosed(context);
  });
}

function added<Listener>(listeners: Set<Listener>, listener: Listener): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

const refused = (code: 'device-not-secure' | 'device-no-audio'): DeviceProblem => ({ code, severity: 'refused', params: {} });

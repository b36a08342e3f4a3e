/** Playing over a recording of one's own: chosen, its beats found or told, its loop set, played with an exercise; kept on the device. */
import { type Exercise, expectedCycle } from '@evenhand/core/exercise';
import type { Problem, Reading } from '@evenhand/core/problem';
import { barCountOf, doubled, fromTaps, halved, inTempo, loopOf, onOffbeat, type SongBeats, type SongLoop, withOne } from '@evenhand/core/song';
import { beatSec } from '@evenhand/core/units';
import type { Engine } from '../audio/engine.ts';
import type { SongStore } from '../store/song.ts';
import { hearSong } from '../worker/song.ts';
import type { SongSound } from './overloop.ts';
import type { Room } from './room.ts';

/** Beats of a bar. Recordings in three are looped in fours of their beats. */
const BEATS_PER_BAR = 4;

/** Bars of a new loop. Common practice, no source: most parts of songs are eight. */
const FIRST_BARS = 8;

/** The rate recordings are read at, Hz. */
const RATE_HZ = 44_100;

/** How a drummer may correct what was found. */
export type Correction = 'half' | 'double' | 'later' | 'earlier' | 'offbeat';

export interface OverMusic {
  readonly at: 'nothing' | 'reading' | 'ready';
  readonly name: string;
  /** For the player that is tapped along to; '' while there is no recording. */
  readonly url: string;
  readonly beats: SongBeats | null;
  readonly barCount: number;
  readonly bars: { readonly first: number; readonly last: number };
  readonly loop: SongLoop | null;
  readonly problems: readonly Problem[];
  readonly unreadable: boolean;
  readonly notKept: boolean;
  readonly taps: readonly number[];
  readonly playing: boolean;
  /** Takes up what is kept. */
  open(): Promise<void>;
  choose(file: File): Promise<void>;
  forget(): Promise<void>;
  correct(how: Correction): void;
  setTempo(tempoBpm: number): void;
  setBars(first: number, last: number): void;
  /** @param sec time in the recording. */
  tap(sec: number): void;
  useTaps(): void;
  /** Plays the loop over and over, with an exercise or alone, in place of what sounded. */
  play(exercise: Exercise | null, how: { readonly click: boolean; readonly gain: number }): Promise<void>;
  stop(): void;
}

export function createOverMusic(room: Pick<Room, 'openEngine'>, store: SongStore): OverMusic {
  let at = $state<OverMusic['at']>('nothing');
  let name = $state('');
  let url = $state('');
  let beats = $state.raw<SongBeats | null>(null);
  let bars = $state.raw({ first: 1, last: FIRST_BARS });
  let problems = $state.raw<readonly Problem[]>([]);
  let unreadable = $state(false);
  let notKept = $state(false);
  let taps = $state.raw<readonly number[]>([]);
  let playing = $state(false);
  let file: Blob | null = null;
  let sound: SongSound | null = null;
  let engine: Engine | null = null;
  /** Counts starts, so that one that was overtaken does not begin after all. */
  let turn = 0;

  const barCount = $derived(beats ? barCountOf(beats, BEATS_PER_BAR) : 0);
  const reading = $derived<Reading<SongLoop>>(
    beats ? loopOf(beats, { firstBar: bars.first, lastBar: bars.last }, BEATS_PER_BAR) : { value: null, problems: [] },
  );
  const durationSec = () => (sound ? sound.samples.length / sound.sampleRateHz : 0);

  async function keep(): Promise<void> {
    if (file) notKept = !(await store.keep({ name, file, beats, firstBar: bars.first, lastBar: bars.last }));
  }

  function tell(next: SongBeats): void {
    stop();
    beats = next;
    const last = Math.max(1, Math.min(bars.last, barCountOf(next, BEATS_PER_BAR)));
    bars = { first: Math.min(bars.first, last), last };
    void keep();
  }

  /** Reads a file as sound; false where it cannot be. */
  async function take(blob: Blob, called: string): Promise<boolean> {
    at = 'reading';
    unreadable = false;
    sound = await soundOf(blob);
    unreadable = sound === null;
    at = sound ? 'ready' : 'nothing';
    if (!sound) return false;
    file = blob;
    name = called;
    if (url) URL.revokeObjectURL(url);
    url = URL.createObjectURL(blob);
    return true;
  }

  function stop(): void {
    turn += 1;
    playing = false;
    void engine?.close();
    engine = null;
  }

  return {
    get at() {
      return at;
    },
    get name() {
      return name;
    },
    get url() {
      return url;
    },
    get beats() {
      return beats;
    },
    get barCount() {
      return barCount;
    },
    get bars() {
      return bars;
    },
    get loop() {
      return reading.value;
    },
    get problems() {
      return [...problems, ...reading.problems];
    },
    get unreadable() {
      return unreadable;
    },
    get notKept() {
      return notKept;
    },
    get taps() {
      return taps;
    },
    get playing() {
      return playing;
    },
    async open() {
      const kept = at === 'nothing' ? await store.kept() : null;
      if (!kept || !(await take(kept.file, kept.name))) return;
      beats = kept.beats;
      bars = { first: kept.firstBar, last: kept.lastBar };
    },
    async choose(chosen) {
      stop();
      [beats, problems, taps, bars] = [null, [], [], { first: 1, last: FIRST_BARS }];
      if (!(await take(chosen, chosen.name.replace(/\.[^.]+$/, '')))) return;
      at = 'reading';
      const found = await hearSong({ ...sound!, beatsPerBar: BEATS_PER_BAR });
      at = 'ready';
      problems = found.problems;
      if (found.value) tell(found.value);
      else await keep();
    },
    async forget() {
      stop();
      [file, sound, beats, problems, taps] = [null, null, null, [], []];
      [at, name, url] = ['nothing', '', ''];
      await store.forget();
    },
    correct(how) {
      if (!beats) return;
      if (how === 'half') tell(halved(beats));
      else if (how === 'double') tell(doubled(beats));
      else if (how === 'offbeat') tell(onOffbeat(beats));
      else tell(withOne(beats, how === 'later' ? 1 : -1, BEATS_PER_BAR));
    },
    setTempo(tempoBpm) {
      if (!(tempoBpm > 0) || !sound) return;
      problems = [];
      const first = beats?.beatsSec[beats.firstOne] ?? 0;
      const next = inTempo(tempoBpm, { phaseSec: first, durationSec: durationSec() });
      const before = Math.round((first - next.beatsSec[0]!) / beatSec(tempoBpm));
      tell(withOne(next, before, BEATS_PER_BAR));
    },
    setBars(first, last) {
      stop();
      bars = { first, last };
      void keep();
    },
    tap(sec) {
      // Going back in the recording begins anew.
      taps = taps.length > 0 && sec <= taps.at(-1)! ? [sec] : [...taps, sec];
    },
    useTaps() {
      const found = fromTaps(taps, durationSec(), BEATS_PER_BAR);
      problems = found.problems;
      if (!found.value) return;
      taps = [];
      tell(found.value);
    },
    async play(exercise, { click, gain }) {
      stop();
      const own = turn;
      const { value: loop } = reading;
      if (!loop || !sound) return;
      playing = true;
      const [opened, { overLoop }] = await Promise.all([room.openEngine({ microphone: 'none' }), import('./overloop.ts')]);
      if (own !== turn || !opened.value) {
        if (own === turn) [playing, problems] = [false, opened.problems];
        return void opened.value?.close();
      }
      engine = opened.value;
      const cycle = exercise ? expectedCycle(exercise) : null;
      const samples = overLoop(sound, loop, { cycle, beatsPerBar: BEATS_PER_BAR, click, clickSound: engine.clickSound, gain });
      engine.playOver(new Float32Array(samples), sound.sampleRateHz);
    },
    stop,
  };
}

/** One channel of a sound file; null where the browser cannot decode it. */
async function soundOf(file: Blob): Promise<SongSound | null> {
  try {
    const decoder = new OfflineAudioContext({ length: 1, sampleRate: RATE_HZ });
    const decoded = await decoder.decodeAudioData(await file.arrayBuffer());
    const samples = new Float32Array(decoded.length);
    for (let channel = 0; channel < decoded.numberOfChannels; channel++) {
      const data = decoded.getChannelData(channel);
      for (let i = 0; i < samples.length; i++) samples[i]! += data[i]! / decoded.numberOfChannels;
    }
    return { samples, sampleRateHz: decoded.sampleRate };
  } catch {
    return null;
  }
}

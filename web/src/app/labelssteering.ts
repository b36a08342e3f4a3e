/** Labels of steering a session: a part of the one table (labels.ts), kept apart because only a session's screens need it. */
import type { Accents, BlockSound, ClickChoice, ClickParts, ClickVolume, Swing } from './clickchoice.ts';
import type { Settings } from './settings.ts';
import type { TellBy } from './telling.ts';

const startBy: Readonly<Record<Settings['startBy'], string>> = {
  touch: 'key, pedal or screen',
  go: 'four stick clicks too',
  tempo: 'four stick clicks too, at their tempo',
};

const clicks: Readonly<Record<ClickChoice, string>> = {
  beats: 'every beat',
  eighths: 'eighths',
  triplets: 'triplets',
  offBeats: 'off-beats',
  twoAndFour: '2 and 4',
  one: 'only 1',
  everySecondBar: '1 of every second bar',
  silentBars: 'two bars, two silent',
  fewer: 'fewer as it goes well',
};

const swing: Readonly<Record<Swing, string>> = { straight: 'straight', light: 'a little swing', triplet: 'two to one', dotted: 'three to one' };

const accents: Readonly<Record<Accents, string>> = { one: 'on 1', oneAndThree: 'on 1 and 3', twoAndFour: 'on 2 and 4', none: 'none' };

const volume: Readonly<Record<ClickVolume, string>> = { softer: 'softer', usual: 'as usual', louder: 'louder' };

const sounds: Readonly<Record<BlockSound, string>> = {
  asSet: 'as set for all',
  tone: 'soft tone',
  knock: 'wooden knock',
  low: 'low tick',
  bright: 'bright ring',
  rustle: 'short rustle',
};

/** Where one is chosen for everything, with what it is good for. */
const soundsForAll: Readonly<Record<Settings['clickSound'], string>> = {
  ...sounds,
  low: 'low tick, for ear plugs',
  bright: 'bright ring, for a loud room',
  rustle: 'short rustle, without a pitch',
};

const countIn: Readonly<Record<Settings['countIn'], string>> = { clicked: 'by the click', spoken: 'by the click and a voice of this device' };

const tellBy: Readonly<Record<TellBy, string>> = {
  nothing: 'the screen alone',
  tones: 'two soft tones',
  voice: 'a voice of this device',
};

export const steeringLabels = {
  swing: 'Swing',
  swings: swing,
  accents: 'Accents',
  accentNames: accents,
  clickVolume: 'Click volume',
  volumes: volume,
  clickSound: 'Click sound',
  sounds,
  soundsForAll,
  countIn: 'Counted in',
  countIns: countIn,
  spokenHint: 'Best with headphones: a voice that the microphone hears hides the click from it.',
  noVoice: 'This device has no voice of its own: the click counts in, its 1 higher and louder.',
  /** Of a click that is not the usual one, what is unlike it. */
  clicked: (parts: ClickParts) =>
    [
      clicks[parts.way],
      ...(parts.swing === 'straight' ? [] : [swing[parts.swing]]),
      ...(parts.accents === 'one' ? [] : [parts.accents === 'none' ? 'no accents' : `accents ${accents[parts.accents]}`]),
      ...(parts.volume === 'usual' ? [] : [volume[parts.volume]]),
      ...(parts.sound === 'asSet' ? [] : [sounds[parts.sound]]),
    ].join(', '),
  click: 'Click',
  clicks,
  startBy: 'Start by',
  startNames: startBy,
  listening: 'Listening for four stick clicks. The microphone is open.',
  asked: 'The browser has not allowed the microphone yet. Press Start once; from then on four stick clicks start.',
  /** Beside the tempo, until the bar line is there. */
  coming: (tempoBpm: number) => ` → ${tempoBpm}`,
  /** After what was heard of a round. */
  glance: (playedBpm: number, nextBpm: number) =>
    nextBpm > playedBpm ? `A bit faster: ${nextBpm}.` : nextBpm < playedBpm ? `Again a bit slower: ${nextBpm}.` : '',
  /** The same from two metres, where the tempo itself stands above. */
  glanceTempo: (playedBpm: number, nextBpm: number) => (nextBpm > playedBpm ? 'a bit faster' : nextBpm < playedBpm ? 'a bit slower' : ''),
  howItRuns: 'How it runs',
  tellBy: 'The next block is told by',
  tellNames: tellBy,
  countAloud: 'Count aloud: the syllables stand under the notes',
  countAloudHint: 'The microphone hears a voice too; speak softly, or let your own word count.',
  counting: 'Count aloud',
  firstTempo: 'The first block at',
  tap: 'Tap the tempo',
  tapOn: 'On …',
  tapped: (tempoBpm: number, taps: number) => `${tempoBpm}, by ${taps} taps`,
  tapUndo: 'As before',
  tempoFollows: 'The tempo follows within a block',
  repeat: 'Once more',
  slower: 'Slower',
  faster: 'Faster',
  keep: 'Keep that',
  goOn: 'Go on now',
  keys: 'Space pauses · Page Down next · R once more · + − tempo · X does not count · K keep · T taps the tempo of what waits · Escape stops · P something hurts',
} as const;

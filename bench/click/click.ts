/** Bench: the sounds of the click, what the ear makes of a take in which each is heard, and what it makes of tones and a voice before a take. Writes bench/click/results.md. */
import { writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { seededRandom } from '../../core/src/random.ts';
import { loudnessLkfs } from '../../core/src/signal/index.ts';
import { CLICK_SOUNDS, type ClickKind, type ClickSound, renderClick, truePeak } from '../../core/src/sound/index.ts';
import { hear } from '../../core/src/stroke/index.ts';
import { fileClock } from '../../core/src/take/index.ts';
import { dbOfAmplitude } from '../../core/src/units.ts';
import { confirmation } from '../../web/src/app/confirming.ts';
import { wayOf } from '../../web/src/worker/hearing/way.ts';
import { matchTimes } from '../ear/scorer.ts';
import { levelDbOf, mixBleed, PATHS, type Sounding } from './bleed.ts';
import { madeTakes, realTakes, type Take } from './takes.ts';
import { madeVoice } from './voice.ts';

const KINDS: readonly ClickKind[] = ['bar', 'beat', 'subdivision'];
/** Frames from a click leaving the app to its sound in the take. */
const WAY_FRAMES = 3217;
/** The 1 of the click as it is heard, dB under a loud stroke: a loudspeaker beside the kit, on the other side of the room, and headphones that leak. */
const UNDER_DB = [10, 20, 30] as const;

function heading(): string[] {
  return [
    '# The sounds of the click, and the ear',
    '',
    `${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model.trim()}, Node ${process.versions.node}, load ${loadavg()[0]!.toFixed(0)}. Made by \`node bench/run.mjs bench/click/click.ts\`.`,
    '',
  ];
}

/** The sounds themselves at 48 kHz. */
function soundTable(): string[] {
  return [
    'Loudness by ITU-R BS.1770 of bars of four at 120; true peak, and the time until .8 of it is reached, of bar / beat / part; energy of bar and beat from 500 to 2,500 Hz; energy of the bar, the brightest voice, from 1.7 to 8 kHz over what is lower, where two sticks have 2 dB and more, straight and by the small loudspeaker in a room (see below).',
    '',
    '| sound | LKFS | peak, dB | .8 of the peak after, ms | 500–2500 Hz | 1.7–8 kHz over lower, dB |',
    '| --- | --- | --- | --- | --- | --- |',
    ...CLICK_SOUNDS.map((sound) => {
      const clicks = KINDS.map((kind) => renderClick(kind, 48_000, sound));
      const peaks = clicks.map((click) => dbOfAmplitude(truePeak(click)).toFixed(1)).join(' / ');
      const inside = clicks.slice(0, 2).map((click) => `${Math.round(100 * energyShare(click, 500, 2500))} %`);
      const bright = PATHS.map(({ through }) => through(clicks[0]!, 48_000)).map(
        (heard) => 10 * Math.log10(energyShare(heard, 1700, 8000) / energyShare(heard, 0, 1700)),
      );
      return `| ${sound} | ${barsLkfs(sound).toFixed(2)} | ${peaks} | ${clicks.map(msToPeak).join(' / ')} | ${inside.join(' / ')} | ${bright.map((db) => db.toFixed(1)).join(' / ')} |`;
    }),
    '',
  ];
}

function barsLkfs(sound: ClickSound): number {
  const samples = new Float32Array(480_000);
  for (let beat = 0; beat < 20; beat++) samples.set(renderClick(beat % 4 === 0 ? 'bar' : 'beat', 48_000, sound), beat * 24_000);
  return loudnessLkfs([samples], 48_000)!;
}

function msToPeak(click: Float32Array): string {
  const peak = click.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  return ((1000 * click.findIndex((sample) => Math.abs(sample) >= 0.8 * peak)) / 48_000).toFixed(2);
}

function energyShare(click: Float32Array, fromHz: number, toHz: number): number {
  let [inside, all] = [0, 0];
  for (let hz = 50; hz < 20_000; hz += 50) {
    let [re, im] = [0, 0];
    click.forEach((sample, i) => {
      re += sample * Math.cos((2 * Math.PI * hz * i) / 48_000);
      im += sample * Math.sin((2 * Math.PI * hz * i) / 48_000);
    });
    all += re * re + im * im;
    if (hz >= fromHz && hz < toHz) inside += re * re + im * im;
  }
  return inside / all;
}

interface Heard {
  readonly hits: number;
  readonly falseCount: number;
}

/** Strokes of a take against the truth, those from a moment on. */
function against(strokesSec: readonly number[], heardSec: readonly number[], fromSec = 0): Heard {
  const [truth, heard] = [strokesSec, heardSec].map((all) => all.filter((sec) => sec >= fromSec)) as [number[], number[]];
  const hits = matchTimes(truth, heard, 0.005).length;
  return { hits, falseCount: heard.length - hits };
}

function timesOf(
  samples: Float32Array,
  sampleRateHz: number,
  told: { readonly clickTimesSec?: readonly number[]; readonly clickVoices?: readonly string[] } = {},
): readonly number[] {
  return hear({ samples, clock: fileClock(sampleRateHz) }, told).strokes.map(({ timeSec }) => timeSec);
}

/** As the Worker hears a take: the way of the click found by its bleed, its sound taken out. */
function heardAsTake(
  take: Take,
  samples: Float32Array,
  sound: ClickSound,
): { readonly heardSec: readonly number[]; readonly wayErrorMs: number | null } {
  const { sampleRateHz, beatsSec } = take;
  const clickVoices = beatsSec.map((_, k): ClickKind => (k % 4 === 0 ? 'bar' : 'beat'));
  const clicksSec = beatsSec.map((sec) => Math.round(sec * sampleRateHz) / sampleRateHz);
  const meta = { takeId: '', sessionId: null, sampleRateHz, fromFrame: 0, wallMs0: 0, atMs: 0, zone: 'UTC', day: '2026-01-01' };
  const { heard } = wayOf({ ...meta, latencySec: 0, latencyFrom: 'unknown' }, samples, { clicksSec, clickVoices, clickSound: sound });
  const latencySec = heard ? Math.round(heard.latencySec * sampleRateHz) / sampleRateHz : 0;
  const told = heard ? { clickTimesSec: clicksSec.map((sec) => sec + latencySec), clickVoices } : {};
  return { heardSec: timesOf(samples, sampleRateHz, told), wayErrorMs: heard ? 1000 * (heard.latencySec - WAY_FRAMES / sampleRateHz) : null };
}

/** The click of a take, and the gain by which its 1 is so far under a loud stroke. */
function clickOf(take: Take, sound: ClickSound, underDb: number): { readonly sounds: readonly Sounding[]; readonly gain: number } {
  const { sampleRateHz, beatsSec, loudDb } = take;
  const [bar, beat] = [renderClick('bar', sampleRateHz, sound), renderClick('beat', sampleRateHz, sound)];
  const sounds = beatsSec.map((sec, k) => ({ frame: Math.round(sec * sampleRateHz) + WAY_FRAMES, samples: k % 4 === 0 ? bar : beat }));
  return { sounds, gain: 10 ** ((loudDb - underDb - levelDbOf(renderClick('bar', sampleRateHz), sampleRateHz)) / 20) };
}

/** Every sound at every volume by every path, against the same takes without a click. All sounds are mixed by the gain of the soft tone: they are as loud as it. */
function earTable(title: string, takes: readonly Take[]): string[] {
  const without = takes.map(({ samples, sampleRateHz, strokesSec }) => against(strokesSec, timesOf(samples, sampleRateHz)));
  const sum = (all: readonly Heard[], what: keyof Heard) => all.reduce((total, one) => total + one[what], 0);
  const strokeCount = takes.reduce((total, { strokesSec }) => total + strokesSec.length, 0);
  const rows = PATHS.flatMap((path) =>
    CLICK_SOUNDS.map((sound) => {
      const cells = UNDER_DB.map((underDb) => {
        const heard = takes.map((take) => {
          const { sounds, gain } = clickOf(take, sound, underDb);
          const samples = mixBleed(take.samples, sounds, { path, gain, sampleRateHz: take.sampleRateHz });
          const { heardSec, wayErrorMs } = heardAsTake(take, samples, sound);
          return { ...against(take.strokesSec, heardSec), wayErrorMs };
        });
        const ways = heard.flatMap(({ wayErrorMs }) => wayErrorMs ?? []);
        const worst = ways.length === 0 ? '–' : Math.max(...ways.map(Math.abs)).toFixed(2);
        const [lost, more] = [sum(without, 'hits') - sum(heard, 'hits'), sum(heard, 'falseCount') - sum(without, 'falseCount')];
        return `${lost} / ${more}; ${ways.length}, ${worst}`;
      });
      console.error(title, path.name, sound, cells.join(' | '));
      return `| ${path.name} | ${sound} | ${cells.join(' | ')} |`;
    }),
  );
  return [
    `## ${title}`,
    '',
    `${takes.length} takes, ${strokeCount} strokes, two bars counted in; without a click ${sum(without, 'hits')} are found within 5 ms and ${sum(without, 'falseCount')} false ones. With it, against that: strokes lost / false ones more (below zero: fewer); takes in which its way was found by its own bleed, and the largest error of that, ms. The 1 of the soft tone so far under a loud stroke (RMS over 20 ms, exceeded by one in ten); all other sounds by the same gain.`,
    '',
    `| heard | sound | ${UNDER_DB.map((db) => `${db} dB under`).join(' | ')} |`,
    '| --- | --- | --- | --- | --- |',
    ...rows,
    '',
  ];
}

/** When a tone sounds in a rest: how long before what, and whether a take is open then. */
interface Told {
  readonly name: string;
  readonly tone: 'next' | 'faster' | 'slower';
  /** Seconds before the first beat of the count-in, or of the exercise. */
  readonly before: 'countIn' | 'exercise';
  readonly sec: number;
  readonly takeOpen: boolean;
}

const TOLD: readonly Told[] = [
  { name: 'the next block, as late as may be, .7 s before its take', tone: 'next', before: 'countIn', sec: 0.7, takeOpen: false },
  { name: 'the same where a take is open in the rest', tone: 'next', before: 'countIn', sec: 0.7, takeOpen: true },
  { name: 'another tempo, faster, .3 s before its bar', tone: 'faster', before: 'exercise', sec: 0.3, takeOpen: true },
  { name: 'another tempo, slower, .3 s before its bar', tone: 'slower', before: 'exercise', sec: 0.3, takeOpen: true },
];

/** The tones that tell the next block, and those that tell another tempo, at the volume at which they are played beside the click. */
function restTable(): string[] {
  const takes = [...made, ...(real ?? [])];
  const rows = TOLD.flatMap((told) =>
    [10, 20].map((underDb) => {
      const counts = takes.map((take) => afterTone(take, told, underDb));
      const total = (what: keyof (typeof counts)[number]) => counts.reduce((sum, one) => sum + one[what], 0);
      console.error(told.name, underDb, total('anywhere'), total('played'), total('lost'));
      return `| ${told.name} | ${underDb} dB | ${total('anywhere')} | ${total('played')} | ${total('lost')} |`;
    }),
  );
  return [
    '## Tones in a rest',
    '',
    `The tones of the app at the volume at which they are played beside the click (their peak 6 dB under that of its 1), by the small loudspeaker in a room, before the same ${takes.length} takes. False strokes more than without them in all of the take, and from the first bar of the exercise on; strokes lost.`,
    '',
    '| told | the click’s 1 under a loud stroke | false in all of it | false from the first bar on | lost |',
    '| --- | --- | --- | --- | --- |',
    ...rows,
    '',
  ];
}

/** What a tone changes in a take: strokes that are not there, anywhere and where the exercise is played, and strokes that are no longer found. */
function afterTone(take: Take, { tone, before, sec, takeOpen }: Told, underDb: number) {
  const { sampleRateHz } = take;
  const { gain } = clickOf(take, 'tone', underDb);
  const countInSec = take.beatsSec[0]!;
  const opensSec = countInSec - (takeOpen ? 1 : 0);
  const quiet = withQuiet(take.samples, sampleRateHz);
  const atSec = 1 + (before === 'countIn' ? countInSec : take.playSec) - sec;
  const toned = mixBleed(quiet, [{ frame: Math.round(atSec * sampleRateHz), samples: confirmation(tone, sampleRateHz) }], {
    path: PATHS[1]!,
    gain,
    sampleRateHz,
  });
  const from = Math.round((1 + opensSec) * sampleRateHz);
  const [after, without] = [toned, quiet].map((samples) =>
    timesOf(samples.subarray(from), sampleRateHz).map((one) => one + from / sampleRateHz - 1),
  ) as [number[], number[]];
  const since = (fromSec: number) => [against(take.strokesSec, after, fromSec), against(take.strokesSec, without, fromSec)] as const;
  const [all, allBefore] = since(opensSec);
  const [played, playedBefore] = since(take.playSec - 0.05);
  return {
    anywhere: all.falseCount - allBefore.falseCount,
    played: played.falseCount - playedBefore.falseCount,
    lost: playedBefore.hits - played.hits,
  };
}

/** A second more of quiet before a take, made of how it begins. */
function withQuiet(samples: Float32Array, sampleRateHz: number): Float32Array {
  const random = seededRandom(5);
  const longer = new Float32Array(sampleRateHz + samples.length);
  for (let i = 0; i < sampleRateHz; i++) longer[i] = samples[Math.floor(random() * 0.2 * sampleRateHz)]!;
  longer.set(samples, sampleRateHz);
  return longer;
}

/** A count-in that is spoken beside the click: what the ear then knows of the click. */
function voiceTable(): string[] {
  const takes = [...made, ...(real ?? [])];
  const rows = (['clicked', 'spoken'] as const).flatMap((how) =>
    UNDER_DB.map((underDb) => {
      const path = PATHS[1]!;
      const counts = takes.map((take) => {
        const { sampleRateHz, beatsSec, strokesSec, playSec } = take;
        const { sounds, gain } = clickOf(take, 'tone', underDb);
        const words = how === 'clicked' ? [] : spokenIn(take);
        const mixed = mixBleed(take.samples, [...sounds, ...words], { path, gain, sampleRateHz });
        const { heardSec, wayErrorMs } = heardAsTake(take, mixed, 'tone');
        const played = against(strokesSec, heardSec, playSec - 0.05);
        return {
          ...played,
          found: wayErrorMs !== null && Math.abs(wayErrorMs) < 1 ? 1 : 0,
          wrong: wayErrorMs !== null && Math.abs(wayErrorMs) >= 1 ? 1 : 0,
          beats: beatsSec.length,
        };
      });
      const total = (what: 'hits' | 'falseCount' | 'found' | 'wrong') => counts.reduce((sum, one) => sum + one[what], 0);
      console.error(how, underDb, total('hits'), total('falseCount'), total('found'), total('wrong'));
      return `| ${how} | ${underDb} dB | ${total('hits')} | ${total('falseCount')} | ${total('found')} | ${total('wrong')} |`;
    }),
  );
  return [
    '## A voice beside the count-in',
    '',
    `A made voice (not a real one: no device with a voice was at hand) says one, two, one, two, three, four over two bars, 6 dB louder than the click, by the small loudspeaker in a room, before the same ${takes.length} takes with the soft tone all through. From the first bar of the exercise on: strokes found within 5 ms, false ones; takes in which the click’s way was found, and found wrongly (1 ms or more off).`,
    '',
    '| count-in | the click’s 1 under a loud stroke | found | false | way found | wrongly |',
    '| --- | --- | --- | --- | --- | --- |',
    ...rows,
    '',
  ];
}

/** Numbers on the beats of a count-in of two bars, the first counting half. */
function spokenIn({ beatsSec, playSec, sampleRateHz }: Take): readonly Sounding[] {
  const counted = beatsSec.filter((sec) => sec < playSec - 0.01);
  const spoken = counted.filter((_, k) => k >= counted.length - 4 || k % 2 === 0);
  const loud = levelDbOf(renderClick('bar', sampleRateHz), sampleRateHz) + 6;
  return spoken.map((sec, k) => {
    const longest = Math.min(0.35, (counted[1]! - counted[0]!) * 0.9);
    const word = madeVoice(k, { sampleRateHz, lastsSec: longest, levelDb: loud });
    return { frame: Math.round((sec + 0.03 * ((k % 3) - 1)) * sampleRateHz) + WAY_FRAMES, samples: word };
  });
}

const made = madeTakes();
const real = realTakes();
const text = [
  ...heading(),
  ...soundTable(),
  ...earTable('Made takes', made),
  ...(real ? earTable('Development takes', real) : ['../shared/reference/takes was absent: nothing of real drums.', '']),
  ...restTable(),
  ...voiceTable(),
].join('\n');
writeFileSync('bench/click/results.md', `${text}\n`);
console.log(text);

/** A standard MIDI file of an exercise: its strokes on the percussion channel, without click or count-in. @source [SMF] */
import { writeMidi } from 'midi-file';
import { barsUntilMet, type ExerciseContent, type ExpectedStroke, expectedCycle, graceLeadsSec, stickingOfContent } from '../exercise/index.ts';
import { type Drum, drumsOf } from '../kit/index.ts';
import { toNumber } from '../rational.ts';
import { beatSec } from '../units.ts';
import { NOTE_TICKS, PPQ, TEMPO_BPM, UNKNOWN_KEYS, VELOCITY } from './parameters.ts';

/** What may be said beside the exercise. */
export interface MidiOptions {
  /** Name of the track; default the sticking. */
  readonly title?: string;
  /** Beats per minute; default 60. */
  readonly tempoBpm?: number;
}

/**
 * Writes an exercise as a MIDI file: whole cycles until they meet the bar line. Both strokes of a diddle stand as notes, a buzz as one. When a small
 * note comes before the very first beat the music begins a bar later, so that bar lines stay bar lines.
 * @returns the bytes of a file of one track, 3360 ticks to the quarter, on which every value up to the 128th and its triplets, fives and sevens is exact.
 */
export function midiFile(content: ExerciseContent, options: MidiOptions = {}): Uint8Array {
  const { title = content.sticking, tempoBpm = TEMPO_BPM } = options;
  const { beats, unit } = content.meter;
  const notes = notesOf(content, tempoBpm);
  const events = [...notes.flatMap(onAndOff)].sort((a, b) => a.tick - b.tick || a.order - b.order);
  let before = 0;
  const timed = events.map(({ tick, ...event }) => {
    const deltaTime = tick - before;
    before = tick;
    return { deltaTime, event };
  });
  const end = lengthTicks(content) + leadTicks(content) - before;
  const track = [
    { deltaTime: 0, type: 'trackName' as const, text: title },
    { deltaTime: 0, type: 'timeSignature' as const, numerator: beats, denominator: unit, metronome: 24, thirtyseconds: 8 },
    { deltaTime: 0, type: 'setTempo' as const, microsecondsPerBeat: Math.round((beatSec(tempoBpm) * 1e6 * unit) / 4) },
    ...timed.map(({ deltaTime, event: { on, key, velocity } }) => {
      return { deltaTime, type: on ? ('noteOn' as const) : ('noteOff' as const), channel: 9, noteNumber: key, velocity };
    }),
    { deltaTime: Math.max(0, end), type: 'endOfTrack' as const },
  ];
  return Uint8Array.from(writeMidi({ header: { format: 0, numTracks: 1, ticksPerBeat: PPQ }, tracks: [track] }));
}

/** A note, in ticks from the start of the file. */
interface Note {
  readonly tick: number;
  readonly lengthTicks: number;
  readonly key: number;
  readonly velocity: number;
}

const ticksOfBeats = (beats: number, { meter }: ExerciseContent): number => Math.round((beats * PPQ * 4) / meter.unit);

/** Cycles until their start meets the bar line. */
function cyclesOf(content: ExerciseContent): number {
  const { slotCount } = stickingOfContent(content);
  return (barsUntilMet(slotCount, content.perBeat, content.meter) * content.meter.beats * content.perBeat) / slotCount;
}

const lengthTicks = (content: ExerciseContent): number => ticksOfBeats(cyclesOf(content) * toNumber(expectedCycle(content).lengthBeats), content);

/** A bar when something sounds before the first beat. */
function leadTicks(content: ExerciseContent): number {
  const early = expectedCycle(content).strokes.some(({ beat, graceCount }) => beat.num === 0 && graceCount > 0);
  return early ? ticksOfBeats(content.meter.beats, content) : 0;
}

function notesOf(content: ExerciseContent, tempoBpm: number): readonly Note[] {
  const { strokes, lengthBeats } = expectedCycle(content);
  const keys = keysOf(drumsOf(content.surfaces));
  const lead = leadTicks(content);
  const secTicks = ticksOfBeats(1, content) / beatSec(tempoBpm);
  const notes = Array.from({ length: cyclesOf(content) }, (_, cycle) =>
    strokes.flatMap((stroke): Note[] => {
      const tick = lead + ticksOfBeats(cycle * toNumber(lengthBeats) + toNumber(stroke.beat), content);
      const key = keys.get(stroke.surface)!;
      const graces = graceLeadsSec(stroke.graceCount).map((sec) => ({ tick: tick - Math.round(sec * secTicks), velocity: VELOCITY.grace }));
      return [...graces, { tick, velocity: velocityOf(stroke) }].map((each) => ({ ...each, key, lengthTicks: NOTE_TICKS }));
    }),
  ).flat();
  return withoutOverlap(notes);
}

/** Keys by name of drum as given; drums without one of their own take turns on keys that no kit uses. */
function keysOf(drums: ReadonlyMap<string, Drum>): ReadonlyMap<string, number> {
  const unknown = [...new Set([...drums.values()].filter(({ midiKey }) => midiKey === null).map(({ name }) => name))];
  const keyOf = ({ name, midiKey }: Drum) => midiKey ?? UNKNOWN_KEYS[unknown.indexOf(name) % UNKNOWN_KEYS.length]!;
  return new Map([...drums].map(([given, drum]) => [given, keyOf(drum)]));
}

const velocityOf = ({ accent, ghost }: ExpectedStroke): number => (accent ? VELOCITY.accent : ghost ? VELOCITY.ghost : VELOCITY.plain);

/** Each note ends where the next on its key begins: drums ring as long as they like. */
function withoutOverlap(notes: readonly Note[]): readonly Note[] {
  const sorted = [...notes].sort((a, b) => a.tick - b.tick);
  return sorted.map((note, i) => {
    const next = sorted.slice(i + 1, i + 64).find(({ key, tick }) => key === note.key && tick > note.tick);
    return { ...note, lengthTicks: Math.min(NOTE_TICKS, next ? next.tick - note.tick : NOTE_TICKS) };
  });
}

interface Switch {
  readonly tick: number;
  /** Ends before beginnings at the same tick. */
  readonly order: number;
  readonly on: boolean;
  readonly key: number;
  readonly velocity: number;
}

const onAndOff = ({ tick, lengthTicks: length, key, velocity }: Note): readonly Switch[] => [
  { tick, order: 1, on: true, key, velocity },
  { tick: tick + length, order: 0, on: false, key, velocity: 0 },
];

/** MusicXML 4.0 of an exercise, for notation programs: every bar of whole cycles written out, as it is engraved. @source [MusicXML4] */

import type { ExerciseContent, Meter } from '../exercise/index.ts';
import { type Drum, drumsOf, readName } from '../kit/index.ts';
import { escaped } from '../markup.ts';
import { lcm, type Rational } from '../rational.ts';
import { type Part, voiceXml } from './musicxmlnote.ts';
import { type WrittenBar, writeOut } from './rhythm.ts';

/** What may be said beside the exercise. */
export interface MusicXmlOptions {
  /** Title of the piece; default the sticking. */
  readonly title?: string;
  /** Beats per minute; default none is written. */
  readonly tempoBpm?: number;
}

const HEAD = `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">
<score-partwise version="4.0">`;

/**
 * Writes an exercise as MusicXML. Pure: the same content and options give the same bytes.
 *
 * Whole cycles stand written out until they meet the bar line, without repeat signs. A diddle is one note with one slash, as it is engraved; a buzz
 * has the sign of an unmeasured tremolo. The sticking stands as lyrics, the second voice's in rows of its own.
 */
export function musicXml(content: ExerciseContent, options: MusicXmlOptions = {}): string {
  const { bars } = writeOut(content, Number.POSITIVE_INFINITY);
  const drums = [...new Map([...drumsOf(content.surfaces).values()].map((drum) => [drum.name, drum])).values()];
  const part: Part = { divisions: divisionsFor(bars, content.meter), meter: content.meter, instrument: (drum) => idOf(drums, drum) };
  return [
    HEAD,
    `<work><work-title>${escaped(options.title ?? content.sticking)}</work-title></work>`,
    '<identification><encoding><software>Evenhand</software></encoding></identification>',
    partList(drums),
    '<part id="P1">',
    ...bars.map((bar, i) => measureXml(bar, { index: i, last: i === bars.length - 1, part, options })),
    '</part>',
    '</score-partwise>',
    '',
  ].join('\n');
}

const idOf = (drums: readonly Drum[], drum: Drum): string => `P1-I${drums.findIndex(({ name }) => name === drum.name) + 1}`;

/** The drums as instruments of one part. A MIDI key is written one higher, as the format counts from 1. */
function partList(drums: readonly Drum[]): string {
  const instruments = drums.map((drum) => {
    return `<score-instrument id="${idOf(drums, drum)}"><instrument-name>${escaped(readName(drum.name))}</instrument-name></score-instrument>`;
  });
  const keys = drums.map((drum) => {
    const key = drum.midiKey === null ? '' : `<midi-unpitched>${drum.midiKey + 1}</midi-unpitched>`;
    return `<midi-instrument id="${idOf(drums, drum)}"><midi-channel>10</midi-channel>${key}</midi-instrument>`;
  });
  return ['<part-list>', '<score-part id="P1">', '<part-name>Drums</part-name>', ...instruments, ...keys, '</score-part>', '</part-list>'].join('\n');
}

/** Divisions of a quarter in which every note of these bars is whole. */
function divisionsFor(bars: readonly WrittenBar[], { unit }: Meter): number {
  const lengths: readonly Rational[] = bars.flatMap(({ voices }) => voices.flatMap(({ notes }) => notes.map(({ lengthBeats }) => lengthBeats)));
  return lengths.reduce((all, { num, den }) => lcm(all, (den * unit) / greatestIn(num * 4, den * unit)), 1);
}

const greatestIn = (a: number, b: number): number => (b === 0 ? a : greatestIn(b, a % b));

interface MeasurePlace {
  readonly index: number;
  readonly last: boolean;
  readonly part: Part;
  readonly options: MusicXmlOptions;
}

function measureXml({ voices }: WrittenBar, { index, last, part, options }: MeasurePlace): string {
  const barLength = (part.meter.beats * 4 * part.divisions) / part.meter.unit;
  const written = voices.flatMap((voice, i) => [
    ...(i > 0 ? [`<backup><duration>${barLength}</duration></backup>`] : []),
    ...voiceXml(voice, { voice: i + 1, alone: voices.length === 1, part }),
  ]);
  return [
    `<measure number="${index + 1}">`,
    ...(index === 0 ? [attributes(part), ...tempoXml(options.tempoBpm, part.meter)] : []),
    ...written,
    ...(last ? ['<barline location="right"><bar-style>light-heavy</bar-style></barline>'] : []),
    '</measure>',
  ].join('\n');
}

const attributes = ({ divisions, meter }: Part): string =>
  `<attributes><divisions>${divisions}</divisions><key><fifths>0</fifths></key>` +
  `<time><beats>${meter.beats}</beats><beat-type>${meter.unit}</beat-type></time><clef><sign>percussion</sign><line>2</line></clef></attributes>`;

const UNIT_NAMES: Readonly<Record<number, string>> = { 1: 'whole', 2: 'half', 4: 'quarter', 8: 'eighth', 16: '16th' };

function tempoXml(tempoBpm: number | undefined, { unit }: Meter): readonly string[] {
  if (tempoBpm === undefined) return [];
  const mark = `<metronome><beat-unit>${UNIT_NAMES[unit] ?? 'quarter'}</beat-unit><per-minute>${tempoBpm}</per-minute></metronome>`;
  return [`<direction placement="above"><direction-type>${mark}</direction-type><sound tempo="${(tempoBpm * 4) / unit}"/></direction>`];
}

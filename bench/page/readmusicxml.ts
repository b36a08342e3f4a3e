/** MusicXML read back by a small reader of our own that knows nothing of the writer: it walks cursor, chords, backups and ties as the format says. */
import { fraction, type Head, type Reading, readingOf } from './expected.ts';
import { all, one, readXml, type XmlElement } from './xml.ts';

/** What a file holds. */
export interface ReadScore {
  readonly reading: Reading;
  /** Sum of the durations of each voice in each bar, in divisions, and what the bar should hold. */
  readonly bars: readonly { readonly voices: readonly number[]; readonly whole: number }[];
  /** MIDI keys of the instruments, one lower than written. */
  readonly keys: readonly number[];
}

/** Reads a file of one part. */
export function readMusicXml(source: string): ReadScore {
  const score = readXml(source);
  const part = one(score, 'part')!;
  const cursor: Cursor = { divisions: 1, whole: 0, start: 0, heads: [], graces: [], letters: [] };
  const bars = all(part, 'measure').map((measure) => {
    const voices = readMeasure(measure, cursor);
    cursor.start += cursor.whole;
    return { voices, whole: cursor.whole };
  });
  const keys = all(one(one(score, 'part-list')!, 'score-part')!, 'midi-instrument').map((each) => Number(one(each, 'midi-unpitched')?.text ?? 0) - 1);
  return { reading: readingOf(cursor.heads, cursor.graces, cursor.letters), bars, keys };
}

interface Cursor {
  divisions: number;
  whole: number;
  start: number;
  readonly heads: Head[];
  readonly graces: string[];
  readonly letters: string[];
}

/** Reads a bar; gives what each voice fills of it. */
function readMeasure(measure: XmlElement, cursor: Cursor): readonly number[] {
  const voices = new Map<string, number>();
  let [at, onset] = [0, 0];
  let small: XmlElement[] = [];
  for (const element of measure.children) {
    if (element.name === 'attributes') readAttributes(element, cursor);
    if (element.name === 'backup') at -= Number(one(element, 'duration')!.text);
    if (element.name !== 'note') continue;
    if (one(element, 'grace')) {
      small.push(element);
      continue;
    }
    if (!one(element, 'chord')) {
      const duration = Number(one(element, 'duration')!.text);
      const voice = one(element, 'voice')!.text;
      voices.set(voice, (voices.get(voice) ?? 0) + duration);
      onset = cursor.start + at;
      at += duration;
    }
    const told = fraction(onset, cursor.divisions);
    cursor.graces.push(...small.map((grace) => `${told} ${placeOf(grace)}`));
    cursor.letters.push(...all(element, 'lyric').map((lyric) => `${told} ${one(lyric, 'text')!.text}`));
    small = [];
    if (one(element, 'rest') || all(element, 'tie').some(({ attributes }) => attributes.type === 'stop')) continue;
    cursor.heads.push({ ...readHead(element), step: placeOf(element), onset: told });
  }
  return [...voices.values()];
}

function readAttributes(element: XmlElement, cursor: Cursor): void {
  cursor.divisions = Number(one(element, 'divisions')!.text);
  const time = one(element, 'time')!;
  cursor.whole = (Number(one(time, 'beats')!.text) * 4 * cursor.divisions) / Number(one(time, 'beat-type')!.text);
}

/** Steps from the middle line, B4 in a treble clef. */
function placeOf(note: XmlElement): number {
  const unpitched = one(note, 'unpitched')!;
  const step = 'CDEFGAB'.indexOf(one(unpitched, 'display-step')!.text);
  return step + 7 * Number(one(unpitched, 'display-octave')!.text) - 34;
}

function readHead(note: XmlElement): Pick<Head, 'shape' | 'ghost' | 'accent' | 'roll'> {
  const head = one(note, 'notehead');
  const notations = one(note, 'notations');
  const tremolo = notations && one(notations, 'ornaments') ? one(one(notations, 'ornaments')!, 'tremolo') : undefined;
  return {
    shape: head?.text ?? 'normal',
    ghost: head?.attributes.parentheses === 'yes',
    accent: notations !== undefined && one(notations, 'articulations') !== undefined,
    roll: tremolo === undefined ? 'none' : tremolo.attributes.type === 'unmeasured' ? 'buzz' : 'diddle',
  };
}

/** Twenty recorded performances: what finding says of the bar that each drummer plays most. Writes bench/finding/groove.md. */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { type MidiNote, readMidi } from '../../cli/src/midi-file.ts';
import { hearMidi } from '../../cli/src/midi-strokes.ts';
import type { ExpectedCycle, ExpectedStroke } from '../../core/src/exercise/index.ts';
import { findingsOf } from '../../core/src/finding/index.ts';
import { measure } from '../../core/src/measurement/index.ts';
import { rational } from '../../core/src/rational.ts';
import type { Limb } from '../../core/src/sticking/index.ts';
import { say } from '../../core/src/words/index.ts';

const FOLDER = '../shared/reference/groove-midi';
/** One file holds 961 kick pairs of 50 ms, median velocity 30 then 11: beater bounce or retrigger. @source EAR.md */
const RETRIGGER_SEC = 0.06;
const HELD_SHARE = 0.6;
const FILE = 'bench/finding/groove.md';
/** What a person made of the list stands below this line and is kept. */
const READING = '## Read by a person';

interface Heard {
  readonly limb: Limb;
  readonly surface: string;
}

/** Drums of the kit by General MIDI key, as this data set's kit sends them; hands as most players have them. */
function partOf(key: number): Heard | null {
  if (key === 36 || key === 35) return { limb: 'K', surface: 'kick' };
  if ([38, 40, 37].includes(key)) return { limb: 'L', surface: 'snare' };
  if ([42, 22, 46, 26, 51, 53, 59].includes(key)) return { limb: 'R', surface: key === 51 || key === 53 || key === 59 ? 'ride' : 'hi-hat' };
  return null;
}

/** A kick again within 60 ms and softer is the pad's, not the player's. */
const withoutRetriggers = (notes: readonly MidiNote[]): MidiNote[] =>
  notes.filter((note, i) => {
    const before = notes.slice(Math.max(0, i - 8), i).findLast(({ key }) => key === note.key);
    return !before || note.timeSec - before.timeSec > RETRIGGER_SEC || note.velocity > before.velocity;
  });

/** The bar played most: what falls on a sixteenth in most bars. */
function barOf(notes: readonly MidiNote[], beatSec: number): ExpectedCycle | null {
  const bars = Math.floor(notes.at(-1)!.timeSec / (4 * beatSec));
  const seen = new Map<string, Set<number>>();
  for (const { timeSec, key } of notes) {
    const part = partOf(key);
    if (!part) continue;
    const slot = Math.round((4 * timeSec) / beatSec);
    const at = `${slot % 16}:${part.limb}:${part.surface}`;
    seen.set(at, (seen.get(at) ?? new Set()).add(Math.floor(slot / 16)));
  }
  const kept = [...seen].filter(([, of]) => of.size >= HELD_SHARE * bars).map(([at]) => at.split(':') as [string, Limb, string]);
  const strokes = kept
    .sort((a, b) => Number(a[0]) - Number(b[0]))
    .map(
      ([slot, limb, surface], index): ExpectedStroke => ({
        index,
        limb,
        surface,
        beat: rational(Number(slot), 4),
        accent: false,
        ghost: false,
        buzz: false,
        graceCount: 0,
      }),
    );
  return bars >= 8 && strokes.length >= 4 ? { lengthBeats: rational(4), strokes } : null;
}

/** Ghost notes are no faults: a stroke of a drum far softer than the loudest of it, bar after bar, is written as a ghost, one far louder than the others as an accent. */
function withDynamics(cycle: ExpectedCycle, notes: readonly MidiNote[], beatSec: number): ExpectedCycle {
  const meanOf = ({ beat, limb, surface }: ExpectedStroke) => {
    const of = notes.filter(({ timeSec, key }) => {
      const part = partOf(key);
      return part?.limb === limb && part.surface === surface && Math.round((4 * timeSec) / beatSec) % 16 === (4 * beat.num) / beat.den;
    });
    return of.reduce((sum, { velocity }) => sum + velocity, 0) / of.length;
  };
  const means = cycle.strokes.map(meanOf);
  const strokes = cycle.strokes.map((stroke, i) => {
    const loudest = Math.max(...means.filter((_, j) => cycle.strokes[j]!.surface === stroke.surface));
    return stroke.limb === 'K' ? stroke : { ...stroke, ghost: means[i]! < 0.55 * loudest, accent: means[i]! > 0.9 * loudest && stroke.limb === 'R' };
  });
  return { ...cycle, strokes };
}

/** Notes within 25 ms are one moment: the first of them counts. */
function oneEach(notes: readonly MidiNote[]): MidiNote[] {
  const kept: MidiNote[] = [];
  for (const note of notes) if (!kept.at(-1) || note.timeSec - kept.at(-1)!.timeSec > 0.025) kept.push(note);
  return kept;
}
const lines: string[] = [];
for (const name of readdirSync(FOLDER)
  .filter((file) => file.endsWith('_beat_4-4.mid'))
  .sort()) {
  if (lines.length >= 20) break;
  const bpm = Number(/_(\d+)_beat_/.exec(name)![1]);
  const beatSec = 60 / bpm;
  const { notes, durationSec } = readMidi(readFileSync(`${FOLDER}/${name}`));
  const clean = withoutRetriggers(notes);
  const bar = barOf(clean, beatSec);
  if (!bar) continue;
  const cycle = withDynamics(bar, clean, beatSec);
  const played = clean.filter(({ key, timeSec }) => {
    const part = partOf(key);
    const slot = Math.round((4 * timeSec) / beatSec) % 16;
    return part && cycle.strokes.some(({ beat, surface }) => surface === part.surface && (4 * beat.num) / beat.den === slot);
  });
  const clicks = Array.from({ length: Math.ceil(durationSec / beatSec) }, (_, i) => i * beatSec);
  const { candidates } = hearMidi(oneEach(played));
  const { value, problems } = measure(candidates, cycle, { tempoBpm: bpm, durationSec: durationSec + 1, clickTimesSec: clicks });
  const findings = value ? findingsOf(value, { cycle, problems }) : [];
  const leans = value?.pairs.filter(({ limb, levelStepDb }) => limb === 'K' && (levelStepDb ?? 0) > 0).length ?? 0;
  const text = cycle.strokes
    .map(({ limb, beat, surface, ghost }) => `${1 + beat.num / beat.den}${limb === 'R' ? surface[0] : limb === 'L' ? (ghost ? 'g' : 's') : 'k'}`)
    .join(' ');
  const fig = findings.flatMap((f) =>
    f.code === 'cause-fits'
      ? [
          `${f.params.time === 'even' ? '' : `${f.params.effectMs.toFixed(0)} ms`} ${f.params.volume === 'even' ? '' : `${f.params.effectDb.toFixed(0)} dB`}`.trim(),
        ]
      : [''],
  );
  lines.push(
    `| ${name.replace('_beat_4-4.mid', '')} | ${text} | ${leans} | ${findings.map((f, i) => `${say(f)}${fig[i] ? ` (${fig[i]})` : ''}`).join(' ')} |`,
  );
}

const text = [
  '# Twenty recorded performances',
  '',
  `${new Date().toISOString().slice(0, 10)}. Made by \`node bench/run.mjs bench/finding/groove.ts\` from ../shared/reference/groove-midi (Gillick et al. 2019, Groove MIDI Dataset, CC BY 4.0).`,
  '',
  'The bar that a drummer plays most, taken from the notes that fall on a sixteenth in six bars of ten, is held against the click of the recording; kicks that the pad sent twice (within 60 ms, the second softer) are left out. h hi-hat, r ride, s snare, g snare ghost, k kick, with the beat. The fourth column counts kick pairs whose second is louder: none of them may be called a fault.',
  '',
  '| performance | bar | leaning kick pairs | what is said |',
  '| --- | --- | --- | --- |',
  ...lines,
  '',
].join('\n');
const [, reading = ''] = (existsSync(FILE) ? readFileSync(FILE, 'utf8') : '').split(READING);
writeFileSync(FILE, `${text}${READING}${reading}`);
console.log(text);

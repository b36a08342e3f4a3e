/** Bench: how right the figures of places are on the reference takes. Writes bench/listen/results.md. */
import { writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { measure } from '../../core/src/measurement/index.ts';
import { cycleOf, play } from '../../core/src/measurement/play.case.ts';
import { normal, seededRandom } from '../../core/src/random.ts';
import { type Comparison, compare } from './compare.ts';
import { perfectEar, poorEar, realEar } from './ears.ts';
import { readListenTakes } from './takes.ts';

const takes = readListenTakes(`${process.cwd()}/../shared/reference/takes`);
if (takes === null) {
  console.log('../shared/reference/takes is absent: nothing to listen to.');
  process.exit(1);
}
const compared = [
  { name: 'perfect (the truth itself)', comparison: compare(takes, perfectEar) },
  { name: 'poor (one in ten lost, 1 ms blur)', comparison: compare(takes, poorEar) },
  { name: 'the ear', comparison: compare(takes, realEar) },
];
const text = [...heading(), ...speedLine(), ...summaryTable(), ...takeTable(compared.at(-1)!.comparison)].join('\n');
writeFileSync('bench/listen/results.md', `${text}\n`);
console.log(text);

function heading(): string[] {
  return [
    '# Places of the reference takes',
    '',
    `${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model ?? 'unknown processor'}, Node ${process.versions.node}. Made by \`npm run bench:listen\`.`,
    '',
    'Place error: |bias − median error of the truth|, each less the mean of its take over places; an omitted place counts as infinite.',
    'Level error: mean level − that of the truth, less the mean of its drum. F at ±5 ms over main strokes, graces and extra strokes.',
    '',
  ];
}

/** Fixed work: 3,000 strokes and as many weak candidates between them; processor time of this process, median of eleven after three to warm up. */
function speedLine(): string[] {
  const random = seededRandom(3);
  const cycle = cycleOf('RLRLKK', 4);
  const strokes = play(cycle, { cycles: 500, tempoBpm: 100, stroke: () => ({ offMs: 8 * normal(random), out: random() < 0.02 }) });
  const weak = strokes.map((stroke) => ({ ...stroke, timeSec: stroke.timeSec + 0.07 * random(), strength: 0.9 * random(), confidence: 0.1 }));
  const timesMs = Array.from({ length: 14 }, () => {
    const before = process.cpuUsage().user;
    measure([...strokes, ...weak], cycle, { tempoBpm: 102, durationSec: 2000 });
    return (process.cpuUsage().user - before) / 1000;
  });
  const middle = timesMs.slice(3).sort((a, b) => a - b)[5]!;
  return [`500 cycles of six strokes measured in ${middle.toFixed(0)} ms of processor time.`, ''];
}

function summaryTable(): string[] {
  return [
    '| ear | place error, median / 90th percentile, ms | level error, median, dB | missed: told played / told missed, of all | played told missed | F ±5 |',
    '| --- | --- | --- | --- | --- | --- |',
    ...compared.map(({ name, comparison: { summary: s } }) => {
      const missed = `${s.missedReportedPlayed} / ${s.missedCalledMissed} of ${s.trulyMissed}`;
      const share = `${(100 * s.playedCalledMissedShare).toFixed(2)} %`;
      return `| ${name} | ${fixed(s.placeMedianMs)} / ${fixed(s.placeP90Ms)} | ${fixed(s.levelMedianDb)} | ${missed} | ${share} | ${s.f5.toFixed(3)} |`;
    }),
    '',
  ];
}

function takeTable({ takes: figures }: Comparison): string[] {
  return [
    'The ear, take by take:',
    '',
    '| take | place errors, ms | level errors, dB | missed: told played / told missed, of all | played: told missed / not audible, of all |',
    '| --- | --- | --- | --- | --- |',
    ...figures.map((f) => {
      const missed = `${f.missedReportedPlayed} / ${f.missedCalledMissed} of ${f.trulyMissed}`;
      const played = `${f.playedCalledMissed} / ${f.playedNotAudible} of ${f.trulyPlayed}`;
      return `| ${f.id.slice(0, 3)} | ${f.placeErrorsMs.map(fixed).join(' ')} | ${f.levelErrorsDb.map(fixed).join(' ')} | ${missed} | ${played} |`;
    }),
  ];
}

function fixed(value: number): string {
  return Number.isFinite(value) ? value.toFixed(2) : '∞';
}

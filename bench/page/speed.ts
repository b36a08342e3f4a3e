/** Bench: how long engraving and printing take. Writes bench/page/results.md. Times are of the processor, as the machine is shared; each is the median of several. */
import { writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { practiceSheet } from '../../adapters/src/paper/index.ts';
import { defaultFocus, exercisesFor, readContent } from '../../core/src/exercise/index.ts';
import { median } from '../../core/src/quantiles.ts';
import { engraveSvg, midiFile, musicXml } from '../../core/src/sheet/index.ts';
import { readSticking } from '../../core/src/sticking/index.ts';
import { say } from '../../core/src/words/index.ts';

const PHRASES = [
  ['RLRLKK', 4],
  ['RLRRLRLL', 4],
  ['lRLrLR', 4],
  ['RL/KR{2:LRL}', 6],
] as const;

const shelves = PHRASES.map(([text, perBeat]) => {
  const sticking = readSticking(text).value!;
  return exercisesFor(readContent(sticking, { perBeat }).value!, defaultFocus(sticking)).exercises;
});
const exercises = shelves.flatMap((shelf) => shelf.slice(0, 25));

/** Processor time of something, ms. */
async function spent(run: () => unknown): Promise<number> {
  const before = process.cpuUsage();
  await run();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

const sorted = (times: readonly number[]): readonly number[] => [...times].sort((a, b) => a - b);
const ninetieth = (times: readonly number[]): number => sorted(times)[Math.floor(times.length * 0.9)]!;

/** How often each exercise is measured; its median counts, since other programs on the machine lengthen single ones. */
const ROUNDS = 5;

/** Each exercise, after everything has been done once before: as on a shelf that is looked through. */
async function each(run: (exercise: (typeof exercises)[number]) => unknown): Promise<readonly number[]> {
  for (const exercise of exercises) run(exercise);
  const times: number[][] = exercises.map(() => []);
  for (let round = 0; round < ROUNDS; round++) for (const [i, exercise] of exercises.entries()) times[i]!.push(await spent(() => run(exercise)));
  return times.map(median);
}

const row = (what: string, times: readonly number[], asked: string): string =>
  `| ${what} | ${median(times).toFixed(1)} | ${ninetieth(times).toFixed(1)} | ${Math.max(...times).toFixed(1)} | ${asked} |`;

const dozen = shelves[0]!
  .slice(0, 12)
  .map((exercise) => ({ content: exercise, title: say(exercise.title), reason: say(exercise.reason), startBpm: 72 }));
const first = await spent(() => practiceSheet({ title: 'Twelve', exercises: dozen, madeMs: 0 }));
const printed: number[] = [];
for (let i = 0; i < 7; i++) printed.push(await spent(() => practiceSheet({ title: 'Twelve', exercises: dozen, madeMs: 0 })));

const rows = [
  row(
    'one exercise engraved as on the shelf (two bars at 400 px)',
    await each((exercise) => engraveSvg(exercise, { widthPx: 400, barLimit: 2 })),
    '10',
  ),
  row('one exercise engraved whole (up to 16 bars at 950 px)', await each((exercise) => engraveSvg(exercise, { widthPx: 950, barLimit: 16 })), ''),
  row('one exercise as MusicXML', await each((exercise) => musicXml(exercise)), ''),
  row('one exercise as MIDI', await each((exercise) => midiFile(exercise)), ''),
  row('a practice sheet of twelve exercises as PDF', printed, '1000'),
];
const machine = `${cpus()[0]?.model.trim() ?? 'unknown'}, Node ${process.versions.node}`;
writeFileSync(
  'bench/page/results.md',
  `# Time on the page

${new Date().toISOString().slice(0, 10)}, ${machine}. Made by \`npm run bench:page\`. Processor time, ms; load while this ran ${loadavg()[0]!.toFixed(1)}. Each of ${exercises.length} exercises is measured ${ROUNDS} times and counts with its median: exercises of ${PHRASES.map(([text]) => text).join(', ')}.

| what | median | 90th percentile | longest | asked |
| --- | --- | --- | --- | --- |
${rows.join('\n')}

The first practice sheet of a program, with the loading of its parts: ${first.toFixed(0)} ms. What holds the engraver and the printer is loaded when first used: \`import('@evenhand/core/sheet')\`, \`import('@evenhand/adapters/paper')\`.

How well exported exercises are read back, and how well played ones are heard: [bench/prove/results.md](../prove/results.md).
`,
);
console.log(rows.join('\n'));

/** Bench: how long the first dozen takes, and 10,000 candidates made and ranked. Writes bench/exercise/results.md. */
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { fileURLToPath } from 'node:url';
import {
  type Exercise,
  exercisesBeyond,
  exercisesFor,
  type Focus,
  type PlayedAt,
  ranked,
  readContent,
  readFocus,
} from '../../core/src/exercise/index.ts';
import { median } from '../../core/src/quantiles.ts';
import { readSticking } from '../../core/src/sticking/index.ts';

/** Times each is measured. */
const RUNS = 15;
const CANDIDATES = 10_000;
const LIMITS_MS = { dozen: 50, ranked: 500 };
const AT: PlayedAt = { tempoBpm: 96 };

const CELLS: readonly (readonly [text: string, perBeat: number, first: number, last: number])[] = [
  ['RLRLKK', 4, 4, 5],
  ['RLRRLL', 6, 4, 5],
  ['l>RLRr>LRL', 3, 0, 1],
  ['RLK', 3, 0, 2],
  ['RLLRLLKK', 4, 6, 7],
  ['RLRRLRLL', 4, 2, 3],
];

interface Times {
  readonly wallMs: readonly number[];
  readonly processorMs: readonly number[];
}

/** Wall and processor time of some runs; the processor's swells less on a busy machine. */
function timed(run: () => void, runs: number): Times {
  const wallMs: number[] = [];
  const processorMs: number[] = [];
  for (let i = 0; i < runs; i++) {
    const [startMs, used] = [performance.now(), process.cpuUsage()];
    run();
    const { user, system } = process.cpuUsage(used);
    wallMs.push(performance.now() - startMs);
    processorMs.push((user + system) / 1000);
  }
  return { wallMs, processorMs };
}

const row = (what: string, { wallMs, processorMs }: Times): string => `| ${what} | ${three(wallMs)} | ${three(processorMs)} |`;
const three = (values: readonly number[]): string =>
  [Math.min(...values), median(values), Math.max(...values)].map((ms) => ms.toFixed(0)).join(' / ');

function candidates(count: number): readonly Exercise[] {
  const sticking = readSticking('RLRLKK').value!;
  const content = readContent(sticking, { perBeat: 4 }).value!;
  const focus = readFocus({ first: 4, last: 5 }, sticking).value!;
  const found: Exercise[] = [];
  for (const each of exercisesBeyond(content, focus)) if (found.push(each) >= count) break;
  return found;
}

const cases = CELLS.map(([text, perBeat, first, last]) => {
  const sticking = readSticking(text).value!;
  return { text, content: readContent(sticking, { perBeat }).value!, focus: readFocus({ first, last }, sticking).value! as Focus };
});
const first = () => timed(() => void exercisesFor(cases[0]!.content, cases[0]!.focus, { limit: 12, at: AT }), 1);
if (process.env.EVENHAND_COLD === 'yes') {
  console.log(JSON.stringify(first()));
  process.exit(0);
}

/** The very first call, each time in a process of its own. */
const colds = Array.from({ length: RUNS }, (): Times => {
  const { stdout } = spawnSync(process.execPath, [fileURLToPath(import.meta.url)], {
    encoding: 'utf8',
    env: { ...process.env, EVENHAND_COLD: 'yes' },
  });
  return JSON.parse(stdout) as Times;
});
const cold: Times = { wallMs: colds.flatMap(({ wallMs }) => wallMs), processorMs: colds.flatMap(({ processorMs }) => processorMs) };
for (const { content, focus } of cases) exercisesFor(content, focus, { limit: 12, at: AT });
const dozens = cases.map(({ text, content, focus }) => ({
  text,
  times: timed(() => void exercisesFor(content, focus, { limit: 12, at: AT }), RUNS),
}));
const made = timed(() => void candidates(CANDIDATES), 3);
const all = candidates(CANDIDATES);
const ranking = timed(() => void ranked(cases[0]!.content, all, AT), 5);

const lines = [
  '# The shelf: speed',
  '',
  `\`npm run bench:exercise\`, ${new Date().toISOString().slice(0, 10)}, ${cpus()[0]!.model} (${cpus().length} cores), Node ${process.versions.node}. Load while this ran: ${loadavg()[0]!.toFixed(1)}.`,
  '',
  `Asked: the first dozen under ${LIMITS_MS.dozen} ms, ${CANDIDATES} candidates ranked under ${LIMITS_MS.ranked} ms. Least / median / worst; wall time counts what other programs took of the machine, processor time does not.`,
  '',
  '| what | wall, ms | processor, ms |',
  '| --- | --- | --- |',
  row(`first dozen for RLRLKK, the very first call of a program, ${RUNS} programs`, cold),
  ...dozens.map(({ text, times }) => row(`first dozen for ${text}, ${RUNS} times`, times)),
  row(`${all.length} candidates of RLRLKK made, with their ids`, made),
  row(`${all.length} candidates ranked by reach at 96 and by what is new`, ranking),
];
writeFileSync('bench/exercise/results.md', `${lines.join('\n')}\n`);
console.log(lines.join('\n'));

/** Bench: how near, how honestly and how soon the clean tempo of simulated players is known. Writes bench/tempo/results.md. */
import { writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { median } from '../../core/src/quantiles.ts';
import { type Holed, holedPlayer } from './holes.ts';
import { TOLD_SEEDS, TUNING_SEEDS } from './seeds.ts';
import { type Method, sitting, type Told } from './sitting.ts';
import { type ToldLater, weeks } from './weeks.ts';

/** `--tune` looks at other players than those that are told, and writes nothing. */
const tuning = process.argv.includes('--tune');
const SEEDS = tuning ? TUNING_SEEDS : TOLD_SEEDS;
const PLAYERS_PER_SEED = tuning ? 150 : 740;
const MARKS = [8, 16, 24, 32, 40, 60, 80] as const;
/** Share of players in a sitting with two techniques. */
const HOLE_SHARE = 0.1;

const seeds = SEEDS.flatMap((seed) => Array.from({ length: PLAYERS_PER_SEED }, (_, k) => (Math.imul(seed, 7919) + k) >>> 0));
const sittings = seeds.flatMap((seed) => sitting(seed, MARKS, { holeShare: HOLE_SHARE }) ?? []);
const later = seeds.map((seed) => weeks(seed));
const holed = seeds.filter((_, k) => k % 3 === 0).flatMap((seed) => holedPlayer(seed) ?? []);

const lines = [...heading(), ...sittingTable(), ...soonTable(), ...laterTable(), ...holeLines(holed)];
console.log(lines.join('\n'));
if (!tuning) writeFileSync('bench/tempo/results.md', `${lines.join('\n')}\n`);

function heading(): string[] {
  return [
    '# Clean tempo of simulated players',
    '',
    `${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model ?? 'unknown processor'}, Node ${process.versions.node}. Made by \`npm run bench:tempo\`.`,
    '',
    `Seeds ${SEEDS.join(', ')} (bench/tempo/seeds.ts, named before anything was tuned; tuned on others with \`-- --tune\`), ${PLAYERS_PER_SEED} players each.`,
    'The players (core/src/player) play eight strokes with normal errors that grow as a power of speed past a limit of their own; they learn by exponential,',
    'power and mixed laws and forget. They share no formula with the belief, which takes odds to fall as a logistic curve of log tempo. This is simulation:',
    'how wide real players scatter is not published, and the figures hold for players like these.',
    '',
  ];
}

function told(method: Method, runs: number): readonly Told[] {
  return sittings.flatMap((of) => of[method].filter((one) => one.runs === runs));
}

function sittingTable(): string[] {
  return [
    '## One sitting',
    '',
    `The player guesses a tempo 12 % off (deviation) and plays two runs a step. ${sittings.length} players, ${Math.round(100 * HOLE_SHARE)} % of them with a second technique; the truth is the top of the lowest clean range.`,
    'The staircase goes up 2 % (later 0.5 %) after a clean run and 5.67 times as far down after another (Kaernbach), told by the mean of its second half, and by our belief in its runs;',
    'random tempi lie within 25 % of the guess and are told by our belief.',
    '',
    '| runs | within 5 % | within 4 % | 90 % range holds the truth | median width | staircase: within 5 / 4 % | staircase, our belief | random, our belief |',
    '| --- | --- | --- | --- | --- | --- | --- | --- |',
    ...MARKS.map((runs) => {
      const ours = told('ours', runs);
      const both = (method: Method) => `${percent(within(told(method, runs), 0.05))} / ${percent(within(told(method, runs), 0.04))}`;
      return `| ${runs} | ${percent(within(ours, 0.05))} | ${percent(within(ours, 0.04))} | ${percent(heldShare(ours))} | ${percent(median(ours.map(({ width }) => width!)))} | ${both('staircase')} | ${both('staircaseBelief')} | ${both('random')} |`;
    }),
    '',
    'Asked: within 5 % after 24 runs and within 4 % after 40 for at least 80 %; ranges that hold the truth for 88 to 92 %.',
    '',
  ];
}

/** Runs each method needs until half of the players are known as well as ours after 24 and 40 runs. */
function soonTable(): string[] {
  const methods: readonly Method[] = ['ours', 'staircase', 'staircaseBelief', 'random'];
  const medianAt = (method: Method, runs: number) => median(told(method, runs).map(({ error }) => Math.abs(error)));
  const needed = (method: Method, goal: number) => MARKS.find((runs) => medianAt(method, runs) <= goal * 1.0001);
  return [
    'Runs until the median error is as small as ours (of the numbers in the table above):',
    '',
    '| as near as ours after | median error | ours | staircase | staircase, our belief | random |',
    '| --- | --- | --- | --- | --- | --- |',
    ...([16, 24, 40] as const).map((runs) => {
      const goal = medianAt('ours', runs);
      return `| ${runs} runs | ${percent(goal)} | ${methods.map((method) => needed(method, goal) ?? `more than ${MARKS.at(-1)}`).join(' | ')} |`;
    }),
    '',
  ];
}

function laterTable(): string[] {
  const row = (name: string, all: readonly (ToldLater | null)[]) => {
    const known = all.filter((one) => one !== null);
    return `| ${name} | ${known.length} of ${all.length} | ${percent(heldShare(known))} | ${percent(median(known.map(({ width }) => width)))} | ${percent(median(known.map(({ error }) => Math.abs(error))))} | ${percent(within(known, 0.05))} |`;
  };
  const [clean, runs] = [later.reduce((sum, one) => sum + one.clean, 0), later.reduce((sum, one) => sum + one.runs, 0)];
  return [
    '## Over weeks',
    '',
    'Five to fifteen days of practice, one to three days apart, two blocks of 8 to 40 runs a day at the tempi that the step rule gives; then one to 21 days away.',
    '',
    '| told | told at all | 90 % range holds the truth | median width | median error | within 5 % |',
    '| --- | --- | --- | --- | --- | --- |',
    row(
      'at the end of the last day',
      later.map(({ after }) => after),
    ),
    row(
      'after days away, before playing',
      later.map(({ away }) => away),
    ),
    '',
    `Of all runs ${percent(clean / runs)} were clean (aimed at: near 85 %).`,
    '',
  ];
}

function holeLines(all: readonly Holed[]): string[] {
  const [yes, no] = [all.filter(({ holed: has }) => has), all.filter(({ holed: has }) => !has)];
  return [
    '## A poor zone between two ways of playing',
    '',
    `Eighty runs spread over tempi: told of ${yes.filter((one) => one.told).length} of ${yes.length} players who have one wider than 5 %, both tops within 5 % of ${yes.filter(({ bothRight }) => bothRight).length}; told where there is none: ${no.filter((one) => one.told).length} of ${no.length}.`,
  ];
}

function within(all: readonly { readonly error: number }[], share: number): number {
  return all.filter(({ error }) => Math.abs(error) <= share).length / all.length;
}

function heldShare(all: readonly { readonly held: boolean | null }[]): number {
  return all.filter(({ held }) => held).length / all.length;
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}

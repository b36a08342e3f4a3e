/** Bench: whether the range of days that the forecast tells holds the day on which simulated players get there. Writes bench/tempo/forecast.md. */
import { writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { type Ahead, ahead } from './ahead.ts';
import { TOLD_SEEDS, TUNING_SEEDS } from './seeds.ts';

/** `--tune` looks at other players than those that are told, and writes nothing. */
const tuning = process.argv.includes('--tune');
const SEEDS = tuning ? TUNING_SEEDS : TOLD_SEEDS;
const PLAYERS_PER_SEED = 240;

const seeds = SEEDS.flatMap((seed) => Array.from({ length: PLAYERS_PER_SEED }, (_, k) => (Math.imul(seed, 7919) + k) >>> 0));
const all = seeds.flatMap((seed) => ahead(seed) ?? []);
const lines = [...heading(), ...table(), ''];
console.log(lines.join('\n'));
if (!tuning) writeFileSync('bench/tempo/forecast.md', `${lines.join('\n').trimEnd()}\n`);

function heading(): string[] {
  return [
    '# When simulated players get there, and what was told',
    '',
    `${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model ?? 'unknown processor'}, Node ${process.versions.node}. Made by \`npm run bench:forecast\`.`,
    '',
    `Seeds ${SEEDS.join(', ')} (bench/tempo/seeds.ts), ${PLAYERS_PER_SEED} players each; ${all.length} of whom a tempo could be told. After 6 to 20 days of practice each is told when a tempo 3 to 25 % above`,
    'the clean tempo will come, and practises on as before, by the step rule, until it is there (form of the day left out) or half a year is over. This is simulation.',
    '',
  ];
}

function table(): string[] {
  const of = (code: Ahead['code']) => all.filter((one) => one.code === code);
  const [between, from, notSeen, little] = [of('forecast-between'), of('forecast-from'), of('forecast-not-yet-seen'), of('forecast-too-little')];
  const dated = [...between, ...from];
  const early = dated.filter(isEarly).length;
  const late = between.filter(isLate).length;
  const reached = (some: readonly Ahead[]) => `${some.filter(({ days }) => days !== null).length} of ${some.length}`;
  return [
    '| told | players | there within half a year | the day lay before the range | after it |',
    '| --- | --- | --- | --- | --- |',
    `| between two days | ${between.length} | ${reached(between)} | ${between.filter(isEarly).length} | ${late} |`,
    `| not before a day, open after it | ${from.length} | ${reached(from)} | ${from.filter(isEarly).length} | – |`,
    `| not in sight within half a year | ${notSeen.length} | ${reached(notSeen)} | – | – |`,
    `| too little yet | ${little.length} | ${reached(little)} | – | – |`,
    '',
    `Ranges that hold the day: ${percent(1 - (early + late) / dated.length)} of ${dated.length}, where 90 of 100 are meant (95 where the range is open); before the range ${percent(early / dated.length)}, where 5 of 100 are meant.`,
    `Median width where both ends are told: ${medianWidth(between)} days. A range is open in ${percent(from.length / dated.length)}: the data then allow that it never comes within half a year, and for ${percent(from.filter(({ days }) => days === null).length / from.length)} of those it did not.`,
  ];
}

function isEarly({ days, from }: Ahead): boolean {
  return days !== null && from !== null && days < from;
}

function isLate({ days, to }: Ahead): boolean {
  return to !== null && (days === null || days > to);
}

function medianWidth(some: readonly Ahead[]): number {
  return some.map(({ from, to }) => to! - from!).sort((a, b) => a - b)[Math.floor(some.length / 2)] ?? 0;
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}

/** Bench: where practice by the player's word leads simulated players, beside practice by ear. Writes bench/tempo/byword.md; `--tune` looks at other players and writes nothing. */
import { writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { median } from '../../core/src/quantiles.ts';
import { TOLD_SEEDS, TUNING_SEEDS } from './seeds.ts';
import { byWords, type Judge } from './words.ts';

const tuning = process.argv.includes('--tune');
const PLAYERS_PER_SEED = tuning ? 150 : 740;
const seeds = (tuning ? TUNING_SEEDS : TOLD_SEEDS).flatMap((seed) =>
  Array.from({ length: PLAYERS_PER_SEED }, (_, k) => (Math.imul(seed, 7919) + k) >>> 0),
);

const lines = [
  '# Practice by the player’s word',
  '',
  `${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model ?? 'unknown processor'}, Node ${process.versions.node}. Made by \`npm run bench:tempo:word\`.`,
  '',
  `${seeds.length} simulated players of core/src/player (seeds of bench/tempo/seeds.ts), five to fifteen days of practice, one to three days apart, two blocks of 5 to 9 rounds a day,`,
  'eight runs a round; work begins a tenth below the clean tempo or so, and follows within blocks. Of a round the player has it when so many of its runs are clean as this player',
  'asks for (60 to 95 %), and slips in one of twenty. By ear each run counts. The word as one run is the rule before decision 0089.',
  '',
  '| judged by | runs clean | last tempo against the clean tempo of that day: median | 5 to 95 % of players | rounds to the first rise, median | never rose |',
  '| --- | --- | --- | --- | --- | --- |',
  row('the ear', 'ear'),
  row('the word, as it counts', 'word'),
  row('the word, as one run', 'wordAsRun'),
];
console.log(lines.join('\n'));
if (!tuning) writeFileSync('bench/tempo/byword.md', `${lines.join('\n')}\n`);

function row(name: string, judge: Judge): string {
  const led = seeds.map((seed) => byWords(seed, judge));
  const offs = led.map(({ off }) => off).sort((a, b) => a - b);
  const at = (share: number) => percent(offs[Math.floor(share * (offs.length - 1))]!);
  const clean = led.reduce((sum, one) => sum + one.clean, 0) / led.reduce((sum, one) => sum + one.runs, 0);
  const rise = median(led.map(({ roundsToRise }) => roundsToRise ?? Number.POSITIVE_INFINITY));
  return `| ${name} | ${percent(clean)} | ${at(0.5)} | ${at(0.05)} to ${at(0.95)} | ${rise} | ${led.filter(({ roundsToRise }) => roundsToRise === null).length} |`;
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}

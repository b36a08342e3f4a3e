/** An hour of sound through the command line: how much memory and time it takes. `npm run build && node bench/doors/doors.mjs` */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
const takes = join(root, '..', 'shared', 'reference', 'takes');
const folder = mkdtempSync(join(tmpdir(), 'evenhand-hour-'));

/** The development takes one after the other until an hour is full, 16 bits, 44.1 kHz, by SoX; then packed by the encoders. */
function makeHour() {
  const parts = readdirSync(takes).filter((name) => name.endsWith('.flac'));
  const wav = join(folder, 'hour.wav');
  const once = join(folder, 'once.wav');
  // Takes of other rates are brought to this one first; SoX joins only what is alike.
  const alike = parts.map((_, i) => join(folder, `${i}.wav`));
  for (const [i, name] of parts.entries()) run('sox', [join(takes, name), '-r', '44100', '-c', '1', '-b', '16', alike[i]]);
  run('sox', [...alike, once]);
  run('sox', [once, wav, 'repeat', '99', 'trim', '0', '3600']);
  run('flac', ['-s', wav, '-o', join(folder, 'hour.flac')]);
  run('lame', ['--quiet', '-b', '128', wav, join(folder, 'hour.mp3')]);
  run('oggenc', ['-Q', '-q', '4', wav, '-o', join(folder, 'hour.ogg')]);
  run('opusenc', ['--quiet', wav, join(folder, 'hour.opus')]);
}

function run(program, given) {
  const { status } = spawnSync(program, given, { stdio: ['ignore', 'ignore', 'ignore'] });
  if (status !== 0) console.log(`${program} is not installed or failed: its file is left out.`);
}

/** A hook that says at the end how much the process had at most. */
const hook = `data:text/javascript,${encodeURIComponent(
  'process.on("exit",()=>{const u=process.resourceUsage();process.stderr.write("RSS "+u.maxRSS+" CPU "+(u.userCPUTime+u.systemCPUTime)/1e6+"\\n")})',
)}`;

function measured(verb, file, more = []) {
  const given = ['--import', hook, join(root, 'cli/bin/evenhand.mjs'), verb, join(folder, file), '--json', ...more];
  const { stdout, stderr, status } = spawnSync(process.execPath, given, { encoding: 'utf8', maxBuffer: 2 ** 29 });
  const [, rss, cpu] = /RSS (\d+) CPU ([\d.]+)/.exec(stderr) ?? [];
  if (status !== 0 || !rss) return `| ${verb} | ${file} | failed | | |`;
  const megabytes = (Number(rss) * 1024) / 1e6;
  const { strokes } = JSON.parse(stdout);
  return `| ${verb} | ${file} | ${megabytes.toFixed(0)} | ${Number(cpu).toFixed(0)} | ${strokes.length} |`;
}

if (!existsSync(takes)) {
  console.log('The reference takes (../shared/reference/takes) are not there: there is no hour to be heard.');
  process.exit(0);
}
try {
  makeHour();
  const told = ['--sticking', 'RLRRK', '--per-beat', '4', '--tempo', '104'];
  const rows = ['hour.wav', 'hour.flac', 'hour.mp3', 'hour.ogg', 'hour.opus']
    .filter((name) => existsSync(join(folder, name)))
    .map((name) => measured('listen', name, told));
  rows.push(measured('strokes', 'hour.wav'));
  const said = [
    '# An hour of sound',
    '',
    `${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model.trim()}, Node ${process.versions.node}, load ${loadavg()[0].toFixed(1)} on ${cpus().length} cores. Made by \`node bench/doors/doors.mjs\` from the development takes, 3,600 s at 44.1 kHz.`,
    '',
    '| verb | file | memory at most, MB | processor time, s | strokes told |',
    '| --- | --- | --- | --- | --- |',
    ...rows,
  ].join('\n');
  console.log(said);
  writeFileSync(join(root, 'bench/doors/results.md'), `${said}\n`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}

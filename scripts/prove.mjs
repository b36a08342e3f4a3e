/** `npm run prove [NAME …]`: the proofs too long for `npm test`. One line each, and a row each in bench/prove/results.md. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { rolldown } from 'rolldown';

const root = dirname(dirname(fileURLToPath(import.meta.url)));

/** Name, what is proved, and the file that proves it: it ends with one line of figures, and with exit code 0 when all holds. */
const proofs = [
  {
    name: 'damaged',
    about: '100,000 damaged sound files: no crash, no hang over a second, each refused in words or heard soundly',
    entry: 'bench/prove/damaged.ts',
  },
  {
    name: 'readback',
    about: '500 exercises of all families and the 40 rudiments on both leads, read back from MusicXML by verovio and from MIDI by mido',
    entry: 'bench/page/readback.ts',
  },
  {
    name: 'heard',
    about: '100 exercises played by our own drums: 99 % of strokes heard by our own ear within 1 ms, 95 % of those over 100 ms apart by aubio',
    entry: 'bench/page/heard.ts',
  },
  {
    name: 'otherdrumming',
    about: 'ten minutes of other drumming, groove-midi through our own drums and takes of real drum samples: nothing is taken for stick clicks',
    entry: 'bench/session/otherdrumming.ts',
  },
  {
    name: 'kills',
    about: 'kill -9 of the browser at 20 moments of a session: at most the bar in progress is lost, and it says so',
    entry: 'bench/session/kills.ts',
  },
  {
    name: 'session',
    about: 'an hour of a running session: under a quarter of one core, memory flat',
    entry: 'bench/session/hour.ts',
  },
  {
    name: 'frame',
    about: 'a quarter of an hour of a running session on a machine that does nothing else: the frame on the present stroke within 20 ms, no drift',
    entry: 'bench/session/frame.ts',
  },
  {
    name: 'hidden',
    about: 'two minutes in a tab that is out of sight for real: every click on its frame, the ear hears what Node hears',
    entry: 'bench/live/hidden.ts',
  },
  {
    name: 'hiddensession',
    about: 'a session of eleven blocks, two minutes of it out of sight for real: blocks, tempi and takes as played, and the screen right afterwards',
    entry: 'bench/live/hiddensession.ts',
  },
  {
    name: 'diarykills',
    about:
      'kill -9 of the browser at 50 random moments of saving, restoring, backing up, upgrading and letting sound go, and its database lost after every sixth: all that was acknowledged is there, nothing half',
    entry: 'bench/diary/kills.ts',
  },
];

/** Packages that find their own files by path stay outside the bundle; it lies where they are found. */
const left = [/^node:/, 'libflacjs', /^libflacjs\//, 'minimp3-wasm', 'opus-decoder', 'stb-vorbis'];
const built = join(root, 'node_modules', '.evenhand-prove');

/** The proof as one file of plain JavaScript. */
async function bundled({ name, entry }) {
  mkdirSync(built, { recursive: true });
  const file = join(built, `${name}.mjs`);
  const bundle = await rolldown({ input: join(root, entry), platform: 'node', external: left });
  await bundle.write({ file, format: 'esm' });
  return file;
}

const results = join(root, 'bench', 'prove', 'results.md');
const heading = [
  '# Long proofs',
  '',
  'Made by `npm run prove`, a row per proof, the last time each was run.',
  '',
  '| proof | says | holds | day | machine |',
  '| --- | --- | --- | --- | --- |',
];

/** Puts a proof's row in the place of the one before. */
function note({ name, about }, { holds, line }) {
  const rows = existsSync(results)
    ? readFileSync(results, 'utf8')
        .split('\n')
        .filter((row) => row.startsWith('| '))
        .slice(2)
    : [];
  const machine = `${cpus()[0]?.model.trim() ?? 'unknown'}, Node ${process.versions.node}`;
  const row = `| ${name} | ${about}. ${line} | ${holds ? 'yes' : '**no**'} | ${new Date().toISOString().slice(0, 10)} | ${machine} |`;
  const kept = rows.filter((other) => !other.startsWith(`| ${name} |`));
  writeFileSync(results, `${[...heading, ...[...kept, row].sort()].join('\n')}\n`);
}

async function prove(proof) {
  const began = Date.now();
  const { status, stdout } = spawnSync(process.execPath, [await bundled(proof)], {
    cwd: root,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const line = (stdout ?? '').trim().split('\n').at(-1) ?? '';
  const holds = status === 0;
  console.log(`${holds ? 'holds ' : 'FAILS '} ${proof.name}: ${line} (${((Date.now() - began) / 1000).toFixed(0)} s)`);
  note(proof, { holds, line });
  return holds;
}

const asked = process.argv.slice(2);
const unknown = asked.find((name) => !proofs.some((proof) => proof.name === name));
if (unknown) {
  console.error(`There is no proof "${unknown}". There are: ${proofs.map(({ name }) => name).join(', ')}.`);
  process.exit(2);
}
let all = true;
for (const proof of proofs.filter(({ name }) => asked.length === 0 || asked.includes(name))) all = (await prove(proof)) && all;
process.exitCode = all ? 0 : 1;

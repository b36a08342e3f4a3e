/** `npm start`: installs npm packages and builds when needed, then serves the app on this machine. */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensurePackages, workspacesOf } from './packages.mjs';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const sources = ['package-lock.json', ...workspacesOf(root)].filter((name) => existsSync(join(root, name)));
const built = ['cli/dist/evenhand.mjs', 'web/dist/index.html'];

/** Milliseconds since 1970 of the youngest file in a file or folder; what builds and tests leave behind does not count. */
function youngestMs(path) {
  const found = statSync(path);
  if (!found.isDirectory()) return found.mtimeMs;
  const names = readdirSync(path).filter((name) => !['dist', 'node_modules', 'tests', 'e2e'].includes(name));
  return Math.max(0, ...names.map((name) => youngestMs(join(path, name))));
}

function isBuildOld() {
  const places = built.map((name) => join(root, name));
  if (!places.every((place) => existsSync(place))) return true;
  const oldestBuiltMs = Math.min(...places.map((place) => statSync(place).mtimeMs));
  return sources.some((name) => youngestMs(join(root, name)) > oldestBuiltMs);
}

function build() {
  console.log('Building …');
  const { status, stdout, stderr } = spawnSync('npm', ['run', 'build'], { cwd: root, encoding: 'utf8' });
  if (status === 0) return true;
  console.error(`${stdout}${stderr}\nThe build failed; its own words stand above.`);
  return false;
}

function serve() {
  const child = spawn(process.execPath, [join(root, 'cli/bin/evenhand.mjs'), 'serve', ...process.argv.slice(2)], { stdio: 'inherit' });
  for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => child.kill(signal));
  child.on('exit', (code) => process.exit(code ?? 0));
}

if (ensurePackages(root) && (!isBuildOld() || build())) serve();
else process.exitCode = 1;

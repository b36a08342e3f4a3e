/** `npm test`: installs what it needs, runs every check and every test, and ends with one line that counts them. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { countPlaywright, countVitest, failed, lastLine, passed, skipped, sum } from './count.mjs';
import { ensurePackages, workspacesOf } from './packages.mjs';
import { ensurePrograms, hasChromium } from './programs.mjs';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const reports = mkdtempSync(join(tmpdir(), 'evenhand-test-'));
const began = Date.now();
const elapsed = () => `${((Date.now() - began) / 1000).toFixed(0)} s`;

/** Gives way to the browser, which must be in time with its sound; everything a program starts gives way too. */
const givingWay = (command, given) => (process.platform === 'win32' ? [command, given] : ['nice', ['-n', '10', command, ...given]]);

/** Runs a program of node_modules in the root; gives its exit code and what it printed. */
function run(command, given, env = {}) {
  return new Promise((resolve) => {
    const path = `${join(root, 'node_modules', '.bin')}:${process.env.PATH}`;
    const child = spawn(command, given, { cwd: root, env: { ...process.env, NO_COLOR: '1', ...env, PATH: path } });
    let printed = '';
    for (const stream of [child.stdout, child.stderr]) {
      stream.on('data', (chunk) => {
        printed += chunk;
      });
    }
    child.on('error', (error) => resolve({ code: 1, printed: String(error) }));
    child.on('close', (code) => resolve({ code: code ?? 1, printed }));
  });
}

/** Says that something long has begun, so that nobody takes it for stuck. */
const begin = (name) => console.log(`…      ${name} (${elapsed()})`);

function tell(name, count, printed) {
  console.log(`${count.failed > 0 ? 'FAILED' : 'ok    '} ${name} (${lastLine(count)}; ${elapsed()})`);
  if (count.failed > 0) console.log(printed.split('\n').slice(-200).join('\n'));
  return count;
}

/** A program that passes or fails as one check. */
const build = async (name, command, given) => {
  const { code, printed } = await run(command, given);
  return tell(name, code === 0 ? passed() : failed(name), printed);
};
const check = (name, command, given) => build(name, ...givingWay(command, given));

const configs = (folder) => (existsSync(join(root, folder)) ? readdirSync(join(root, folder)) : []).filter((name) => /^tsconfig.*\.json$/.test(name));
const workspaces = workspacesOf(root);
const typeChecks = workspaces
  .flatMap((folder) => configs(folder).map((name) => `${folder}/${name}`))
  .map((config) =>
    config === 'web/tsconfig.json'
      ? () => check(`types ${config}`, 'svelte-check', ['--workspace', 'web', '--tsconfig', './tsconfig.json', '--fail-on-warnings'])
      : () => check(`types ${config}`, 'tsc', ['-p', config]),
  );

const checks = [
  () => check('format and lint', 'biome', ['check', '.']),
  () =>
    check(
      'line of imports',
      'depcruise',
      workspaces.map((name) => `${name}/src`),
    ),
  () => check('licences of what is shipped', process.execPath, ['scripts/licences.mjs']),
  ...typeChecks,
];

/** What the tests need. */
const builds = [
  () => build('build of the app', 'npm', ['run', 'build', '--workspace', 'web']),
  () => build('build of the command line', 'npm', ['run', 'build', '--workspace', 'cli']),
];

const reported = (file) => (existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : null);

async function vitest() {
  begin('tests in Node');
  const file = join(reports, 'vitest.json');
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${file}`];
  const { code, printed } = await run(...givingWay('vitest', ['run', '--maxWorkers=2', ...reporters]));
  const count = countVitest(reported(file));
  return tell('tests in Node', code !== 0 && count.failed === 0 ? sum([count, failed('vitest crashed')]) : count, printed);
}

/** Ports that nobody uses now: tests must not depend on what else runs on a desk. */
async function freePorts(count) {
  const servers = Array.from({ length: count }, () => createServer().listen(0));
  await Promise.all(servers.map((server) => once(server, 'listening')));
  const ports = servers.map((server) => String(server.address().port));
  for (const server of servers) server.close();
  return ports;
}

/** Projects of playwright.config.ts. */
const PROJECTS = ['weeks', 'built', 'modules', 'session'];

/** Two files at a time: they wait for their sound more than they compute, and take the next file whenever they are free. */
async function playwright() {
  const name = 'tests in a browser';
  if (!hasChromium()) return tell(name, skipped(`the ${name}: chromium is not installed`), '');
  begin(name);
  const file = join(reports, 'playwright.json');
  const [built, modules] = await freePorts(2);
  const env = { PLAYWRIGHT_JSON_OUTPUT_NAME: file, EVENHAND_BUILT_PORT: built, EVENHAND_MODULES_PORT: modules, EVENHAND_BUILT: 'yes' };
  const { code, printed } = await run('playwright', ['test', '--workers=2', '--reporter=line,json'], env);
  const count = countPlaywright(reported(file), PROJECTS);
  return tell(name, code !== 0 && count.failed === 0 ? sum([count, failed('Playwright crashed')]) : count, printed);
}

/** One after the other. */
async function inTurn(steps) {
  const counts = [];
  for (const step of steps) counts.push(await step());
  return sum(counts);
}

async function everything() {
  if (!ensurePackages(root)) return failed('npm packages could not be installed');
  ensurePrograms();
  const built = await Promise.all(builds.map((step) => step()));
  // The browser is in time with its sound; what only computes has the processor while it waits.
  return sum([...built, ...(await Promise.all([playwright(), inTurn([...checks, vitest])]))]);
}

const total = await everything();
rmSync(reports, { recursive: true, force: true });
if (total.notes.length > 0) console.log(`\n${total.notes.join('\n')}`);
console.log(`\nIn ${elapsed()}:`);
console.log(lastLine(total));
process.exitCode = total.failed > 0 ? 1 : 0;

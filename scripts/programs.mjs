/** Programs beside Node that tests use: found on the PATH, installed from Debian when allowed, named when not. */
import { spawnSync } from 'node:child_process';
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';

/** Each with its Debian package and what goes untested without it. */
export const programs = [
  { command: 'chromium', debian: 'chromium', tests: 'the app in a browser' },
  { command: 'flac', debian: 'flac', tests: 'reading FLAC against an independent encoder' },
];

/** Whether `command` can be run from one of the folders of `path`. */
export const isInstalled = (command, path = process.env.PATH ?? '') =>
  path.split(delimiter).some((folder) => {
    try {
      accessSync(join(folder, command), constants.X_OK);
      return true;
    } catch {
      return false;
    }
  });

/** Installs what is missing when this is Debian and we are root; otherwise says what to install. */
export function ensurePrograms() {
  const missing = programs.filter(({ command }) => !isInstalled(command));
  if (missing.length === 0) return;
  const names = missing.map(({ debian }) => debian);
  if (process.getuid?.() === 0 && isInstalled('apt-get')) install(names);
  for (const { command, debian, tests } of missing.filter((program) => !isInstalled(program.command))) {
    console.log(`${command} is not installed, so ${tests} is not tested. On Debian: sudo apt-get install ${debian}`);
  }
}

function install(names) {
  console.log(`Installing from Debian: ${names.join(' ')} …`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  for (const given of [['update'], ['install', '-y', '--no-install-recommends', ...names]]) {
    spawnSync('apt-get', ['-q', ...given], { env, stdio: ['ignore', 'ignore', 'inherit'] });
  }
}

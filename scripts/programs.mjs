/** Programs beside Node that tests use: found on the PATH, installed from Debian when allowed, named when not. */
import { spawnSync } from 'node:child_process';
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';

/** Each by the names it may have, with its Debian package and what goes untested without it. */
export const programs = [
  { commands: ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome'], debian: 'chromium', tests: 'the app in a browser' },
  { commands: ['flac'], debian: 'flac', tests: 'reading FLAC against an independent encoder' },
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

const isThere = ({ commands }) => commands.some((command) => isInstalled(command));

/** Whether there is a browser to test the app in. */
export const hasChromium = () => isThere(programs[0]);

/** Installs what is missing when this is Debian and we are root; otherwise says what to install. */
export function ensurePrograms() {
  const missing = programs.filter((program) => !isThere(program));
  if (missing.length === 0) return;
  const names = missing.map(({ debian }) => debian);
  if (process.getuid?.() === 0 && isInstalled('apt-get')) install(names);
  for (const { debian, tests } of missing.filter((program) => !isThere(program))) {
    console.log(`${debian} is not installed, so ${tests} is not tested. On Debian: sudo apt-get install ${debian}`);
  }
}

function install(names) {
  console.log(`Installing from Debian: ${names.join(' ')} …`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  for (const given of [['update'], ['install', '-y', '--no-install-recommends', ...names]]) {
    spawnSync('apt-get', ['-q', ...given], { env, stdio: ['ignore', 'ignore', 'inherit'] });
  }
}

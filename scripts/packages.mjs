/** Sees to it that the npm packages of the lock file are in node_modules, and installs them when they are not. */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const packagesIn = (file) => JSON.parse(readFileSync(file, 'utf8')).packages;

/** Folders of the workspaces, as package.json lists them. */
export const workspacesOf = (root) => JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')).workspaces;

/**
 * What the lock file names and node_modules lacks or has in another version.
 * Packages for other machines (optional ones) and links to workspaces are left out.
 * @param {Record<string, { version?: string, optional?: boolean, devOptional?: boolean, link?: boolean }>} wanted `packages` of package-lock.json.
 * @param {Record<string, { version?: string }>} installed `packages` of node_modules/.package-lock.json.
 * @returns {string[]} their places, such as `node_modules/vite`; empty when all is there.
 */
export function missingPackages(wanted, installed) {
  return Object.entries(wanted)
    .filter(([place, entry]) => place.startsWith('node_modules/') && !entry.link && !entry.optional && !entry.devOptional)
    .filter(([place, entry]) => installed[place]?.version !== entry.version)
    .map(([place]) => place);
}

/**
 * Runs `npm ci` in `root` when packages are missing.
 * @param {string} root folder of package-lock.json.
 * @returns {boolean} false when they are still missing; npm has then said why.
 */
export function ensurePackages(root) {
  const hidden = join(root, 'node_modules', '.package-lock.json');
  const missing = missingPackages(packagesIn(join(root, 'package-lock.json')), existsSync(hidden) ? packagesIn(hidden) : {});
  if (missing.length === 0 && existsSync(join(root, 'node_modules', '.bin', 'evenhand'))) return true;
  console.log(`Installing npm packages (${missing.length} missing) …`);
  const { status } = spawnSync('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error'], { cwd: root, stdio: 'inherit' });
  if (status !== 0) console.error('npm could not install the packages. Is there a network? Run `npm ci` to see more.');
  return status === 0;
}

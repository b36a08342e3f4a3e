/** Proof: kill -9 of the browser at 50 random moments of saving, restoring, backing up and upgrading a diary and letting sound go, with the database lost or broken after every sixth; the test is that of `npm test`, which kills six times. */
import { spawnSync } from 'node:child_process';

const KILLS = process.env.EVENHAND_KILLS ?? '50';
const { status, stdout } = spawnSync('npx', ['playwright', 'test', '--project=modules', '--reporter=line', 'kills.modules'], {
  env: { ...process.env, EVENHAND_KILLS: KILLS },
  encoding: 'utf8',
  stdio: ['ignore', 'pipe', 'inherit'],
});
if (status !== 0) console.error(stdout);
console.log(
  status === 0
    ? `${KILLS} kills: every acknowledged entry was there, no pair, restore, upgrade or thinning was half.`
    : `Something acknowledged was lost, or half, or the browser could not be started: ${(stdout.match(/\n\s+(\w*Error: [^\n]*)/)?.[1] ?? 'no reason told').trim()}`,
);
process.exitCode = status === 0 ? 0 : 1;

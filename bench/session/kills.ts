/** Proof: the browser killed at twenty moments of a running session, by the test of the app that does it four times. */
import { spawnSync } from 'node:child_process';

const { status, stdout } = spawnSync('npx', ['playwright', 'test', 'faults', '-g', 'kill -9'], {
  encoding: 'utf8',
  env: { ...process.env, EVENHAND_KILLS: '20' },
  stdio: ['ignore', 'pipe', 'inherit'],
});
console.log(status === 0 ? '20 of 20 kills lost no more than the bar in progress' : stdout.trim().split('\n').slice(0, 12).join(' '));
process.exitCode = status ?? 1;

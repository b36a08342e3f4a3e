/** Proof: the bench of a running session for an hour (EVENHAND_MINUTES says another length). */
import { spawnSync } from 'node:child_process';

const minutes = process.env.EVENHAND_MINUTES ?? '60';
const { status, stdout } = spawnSync('npm', ['run', 'bench:session'], {
  encoding: 'utf8',
  env: { ...process.env, EVENHAND_MINUTES: minutes },
  stdio: ['ignore', 'pipe', 'inherit'],
});
const figures = stdout.split('\n').filter((line) => line.startsWith('| ') && !line.startsWith('| figure') && !line.startsWith('| ---'));
console.log(
  `${minutes} minutes: ${figures
    .map((line) =>
      line
        .split('|')
        .slice(1, 3)
        .map((cell) => cell.trim())
        .join(' '),
    )
    .join('; ')}`,
);
process.exitCode = status ?? 1;

/** Proof: the bench of a page out of sight (EVENHAND_AWAY_SEC says for how long). */
import { spawnSync } from 'node:child_process';

const { status, stdout } = spawnSync('npm', ['run', 'bench:hidden'], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'inherit'] });
const rows = stdout.split('\n').filter((line) => /^\| (click|ear|session),/.test(line));
const said = rows.map((row) =>
  row
    .split('|')
    .slice(1, -1)
    .map((cell) => cell.trim())
    .join(': '),
);
console.log(status === 0 ? said.join('; ') : `${said.join('; ')}; failed: ${stdout.trim().split('\n').slice(-12).join(' ')}`);
process.exitCode = status ?? 1;

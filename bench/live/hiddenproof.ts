/** The bench of a page out of sight as a proof: runs some of its tests, and says their figures in one line. */
import { spawnSync } from 'node:child_process';

/** @param tests those whose names match. Ends the program with the bench's own exit code; EVENHAND_AWAY_SEC says for how long it is out of sight. */
export function proveHidden(tests: string): void {
  const { status, stdout } = spawnSync('npm', ['run', 'bench:hidden', '--', '-g', tests], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'inherit'] });
  const rows = stdout.split('\n').filter((line) => /^\| (click|ear|session),/.test(line));
  const said = rows.map((row) =>
    row
      .split('|')
      .slice(1, -1)
      .map((cell) => cell.trim())
      .join(': '),
  );
  const failure = status === 0 ? [] : [`failed: ${stdout.trim().split('\n').slice(-12).join(' ')}`];
  console.log([...said, ...failure].join('; '));
  process.exitCode = status ?? 1;
}

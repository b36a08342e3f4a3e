/** The bench of a running session as a proof: runs it, and says its figures in one line. */
import { spawnSync } from 'node:child_process';

/** What must hold besides being told: share of a core and flat memory; or the frame, which only a machine that does nothing else can show. */
export type Proved = 'memory' | 'frame';

/** @param minutes how long the session runs; EVENHAND_MINUTES says another length. Ends the program with the bench's own exit code. */
export function proveSession(minutes: number, proved: Proved): void {
  const lasts = process.env.EVENHAND_MINUTES ?? String(minutes);
  const { status, stdout } = spawnSync('npm', ['run', 'bench:session'], {
    encoding: 'utf8',
    env: { ...process.env, EVENHAND_MINUTES: lasts, EVENHAND_PROVED: proved },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const figures = stdout.split('\n').filter((line) => line.startsWith('| ') && !line.startsWith('| figure') && !line.startsWith('| ---'));
  const said = figures.map((line) =>
    line
      .split('|')
      .slice(1, 3)
      .map((cell) => cell.trim())
      .join(' '),
  );
  const load = /load [\d.]+ beside it/.exec(stdout)?.[0] ?? 'load unknown';
  console.log(`${lasts} minutes, ${load}: ${said.join('; ')}`);
  process.exitCode = status ?? 1;
}

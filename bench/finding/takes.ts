/** The takes of this bench, each from a seed named here before anything was tuned; measured ones can be kept in a folder, since hearing them takes an hour. */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Measurement } from '../../core/src/measurement/index.ts';
import type { Style } from '../../core/src/player/index.ts';
import { heardTake, type TakeToPlay } from './hearing.ts';
import { cycleOf, faultsOf, type Kind, PLAYS, type Play } from './plays.ts';

/** Deviation 8 ms of every stroke, shared by strokes together as far as the inner clock goes (6.93 and 4 ms), and 1.5 dB; one beat does not resemble the next, and fast strokes vary no more than slow ones. */
export const STYLE: Style = { clockSdMs: 6.93, motorSdMs: 4, correction: 1, levelSdDb: 1.5, wanderShare: 0, hurryGain: 0 };
export const CYCLES = 32;
export const TEMPO_BPM = 120;
export const SIZES = [1, 2, 4] as const;

/** Named before tuning; tuning used seeds below 10,000. */
export const FAULTLESS_SEEDS = [110_001, 220_002, 330_003] as const;
export const FAULTLESS_TAKES = 400;
export const FAULT_SEED = 440_004;
export const PROBE_SEED = 550_005;

/** A take with one fault. */
export interface FaultyTake {
  readonly play: Play;
  readonly kind: Kind;
  readonly units: number;
  readonly take: TakeToPlay;
}

/** Every play at a size, each kind of fault and either sign in turn. */
export function faultyTakes(units: (typeof SIZES)[number], timesEach: number): FaultyTake[] {
  return PLAYS.flatMap((play, number) =>
    Array.from({ length: timesEach }, (_, time) => {
      const kind = play.kinds[time % play.kinds.length]!;
      const faults = faultsOf(play, { kind, units, sign: Math.floor(time / play.kinds.length) % 2 === 0 ? 1 : -1, cycles: CYCLES });
      const seed = FAULT_SEED + 10_000 * units + 100 * number + time;
      return { play, kind, units, take: takeOf(play, faults, seed) };
    }),
  );
}

/** Faultless takes, from the three seeds in turn, over all phrases. */
export function faultlessTakes(): { readonly play: Play; readonly take: TakeToPlay }[] {
  const plays = PLAYS.filter((play, i) => PLAYS.findIndex(({ phrase }) => phrase === play.phrase) === i);
  return Array.from({ length: FAULTLESS_TAKES }, (_, i) => {
    const play = plays[i % plays.length]!;
    return { play, take: takeOf(play, [], FAULTLESS_SEEDS[i % 3]! + i) };
  });
}

const takeOf = (play: Play, faults: TakeToPlay['faults'], seed: number): TakeToPlay => ({
  cycle: cycleOf(play.phrase),
  tempoBpm: TEMPO_BPM,
  cycles: CYCLES,
  style: STYLE,
  faults,
  seed,
});

const FOLDER = process.env.EVENHAND_BENCH_KEEP;

/** Where a take is kept once it was heard. */
function fileOf(take: TakeToPlay, folder: string): string {
  const amounts = take.faults.map(({ amountIn, ...fault }) => ({
    ...fault,
    amounts: amountIn && Array.from({ length: take.cycles }, (_, i) => amountIn(i)),
  }));
  const key = JSON.stringify({ ...take, faults: amounts });
  return join(folder, `${createHash('sha256').update(key).digest('hex').slice(0, 24)}.json`);
}

/** With EVENHAND_BENCH_ONLY_KEPT, takes that were not heard before are left out, and the results say how many there were. */
export const isAtHand = (take: TakeToPlay): boolean => !FOLDER || !process.env.EVENHAND_BENCH_ONLY_KEPT || existsSync(fileOf(take, FOLDER));

/** Heard anew, or as it was kept in the folder that EVENHAND_BENCH_KEEP names. */
export function measurementOf(take: TakeToPlay): Measurement | null {
  if (!FOLDER) return heardTake(take);
  mkdirSync(FOLDER, { recursive: true });
  const file = fileOf(take, FOLDER);
  if (existsSync(file)) return JSON.parse(readFileSync(file, 'utf8')) as Measurement | null;
  const measured = heardTake(take);
  writeFileSync(file, JSON.stringify(measured));
  return measured;
}

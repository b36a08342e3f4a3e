/** The same figures from an independent program, `evaluate.py` beside the annotated takes, for our scorer to be held to. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { median } from '../../core/src/quantiles.ts';
import { constantMs, filledMisses, type Judged, levelErrorsDb, madOf, scoreWindow, slotBiasMs } from './scorer.ts';
import { referenceTakes } from './takes.ts';

/** Every figure that both programs tell, by name. */
export type Figures = Readonly<Record<string, number>>;

/** What smr a stroke must have to count in the masked figures, dB. */
const MASK_DB = 0;
const WINDOWS_MS = [50, 25, 10, 5] as const;

/** By our own scorer. */
export const ownFigures = (takes: readonly Judged[]): Figures => {
  const shiftMs = constantMs(takes);
  // With a mask it takes the constant from the strokes that count.
  const maskedShiftMs = median(scoreWindow(takes, 50, { minSmrDb: MASK_DB }).errorsMs);
  const levels = levelErrorsDb(takes).map(Math.abs);
  const { missed, filled } = filledMisses(takes, shiftMs);
  const windows = WINDOWS_MS.flatMap((windowMs) => {
    const score = scoreWindow(takes, windowMs, { shiftMs });
    const masked = scoreWindow(takes, windowMs, { shiftMs: maskedShiftMs, minSmrDb: MASK_DB });
    return [
      [`hits ±${windowMs}`, score.hits],
      [`false ±${windowMs}`, score.falseAlarms],
      [`not found ±${windowMs}`, score.misses],
      [`F ±${windowMs}`, score.f],
      [`median ±${windowMs}`, median(score.errorsMs)],
      [`MAD ±${windowMs}`, madOf(score.errorsMs)],
      [`F ±${windowMs} masked`, masked.f],
      [`not found ±${windowMs} masked`, masked.misses],
    ] as const;
  });
  const others = { shiftMs, missed, filled, slotBias: slotBiasMs(takes, { shiftMs }), ...(levels.length > 0 ? { level: median(levels) } : {}) };
  return { ...Object.fromEntries(windows), ...others };
};

interface Told {
  readonly shiftMs: number;
  readonly debiased: Readonly<Record<string, { tp: number; fp: number; fn: number; F: number; err: { median: number; mad: number } }>>;
  readonly slots: { readonly slotBiasRms: number; readonly missed: number; readonly missedFilled: number };
  readonly levels: { readonly rms20Dbfs?: { readonly medAbs: number } };
}

/**
 * By `evaluate.py`, over all the development takes.
 * @param takes one per development take, in any order.
 * @param folder where the times are written for it.
 * @returns null where there is no python3.
 */
export const theirFigures = (takes: readonly Judged[], folder: string): Figures | null => {
  mkdirSync(folder, { recursive: true });
  for (const { truth, detections } of takes) {
    const lines = detections.map(({ timeSec, levelDb }) => (levelDb === undefined ? String(timeSec) : `${timeSec} ${levelDb}`));
    writeFileSync(join(folder, `${truth.id}.txt`), lines.join('\n'));
  }
  const asked = (more: readonly string[]): Told | null => {
    const given = [join(referenceTakes, 'evaluate.py'), referenceTakes, folder, '--debias', '--json', ...more];
    const { status, stdout } = spawnSync('python3', given, { encoding: 'utf8', maxBuffer: 1 << 28 });
    return status === 0 ? (JSON.parse(stdout) as Told) : null;
  };
  const all = asked([]);
  const masked = asked(['--mask', String(MASK_DB)]);
  return all && masked ? namedAsOurs(all, masked) : null;
};

const namedAsOurs = ({ shiftMs, debiased, slots, levels }: Told, masked: Told): Figures => ({
  ...Object.fromEntries(
    WINDOWS_MS.flatMap((windowMs) => {
      const { tp, fp, fn, F, err } = debiased[windowMs]!;
      return [
        [`hits ±${windowMs}`, tp],
        [`false ±${windowMs}`, fp],
        [`not found ±${windowMs}`, fn],
        [`F ±${windowMs}`, F],
        [`median ±${windowMs}`, err.median],
        [`MAD ±${windowMs}`, err.mad],
        [`F ±${windowMs} masked`, masked.debiased[windowMs]!.F],
        [`not found ±${windowMs} masked`, masked.debiased[windowMs]!.fn],
      ];
    }),
  ),
  shiftMs,
  missed: slots.missed,
  filled: slots.missedFilled,
  slotBias: slots.slotBiasRms,
  ...(levels.rms20Dbfs ? { level: levels.rms20Dbfs.medAbs } : {}),
});

/** Names of the figures in which the two differ by more than what adding up in another order does. */
export const differing = (ours: Figures, theirs: Figures): string[] =>
  Object.keys({ ...ours, ...theirs }).filter((name) => !(Math.abs((ours[name] ?? Number.NaN) - (theirs[name] ?? Number.NaN)) < 1e-6));

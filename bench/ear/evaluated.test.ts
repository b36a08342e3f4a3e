/** Our scorer and the independent `evaluate.py` tell the same of the same times, in every figure. */
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { seededRandom } from '../../core/src/random.ts';
import { differing, ownFigures, theirFigures } from './evaluated.ts';
import type { Detection, Judged, Truth } from './scorer.ts';
import { referenceTakes } from './takes.ts';

/** Ears of many kinds: late, blurred, deaf to some strokes, hearing more than there is, near where strokes were left out too. */
function made(truth: Truth, seed: number): Detection[] {
  const random = seededRandom(seed);
  const heard = truth.strokes.flatMap(({ onset, gridTime, rms20Dbfs }): Detection[] => {
    if (onset === null) return random() < 0.4 ? [{ timeSec: gridTime + 0.01 * random(), levelDb: -30 }] : [];
    if (random() < 0.1) return [];
    const timeSec = onset + 0.002 * seed + (random() < 0.8 ? 0.004 : 0.06) * (random() - 0.5);
    const own = { timeSec, levelDb: rms20Dbfs + 3 * random() };
    return random() < 0.05 ? [own, { timeSec: timeSec + 0.03 * random(), levelDb: -40 }] : [own];
  });
  return heard.sort((a, b) => a.timeSec - b.timeSec);
}

if (!existsSync(referenceTakes)) process.stderr.write('evaluated.test.ts: skipped, the annotated takes (../shared/reference/takes) are not there\n');

test.skipIf(!existsSync(referenceTakes)).each([1, 2])(
  'on made times, ear %i: F, counts, medians, MAD, slot bias, filled, levels (says: evaluate.py)',
  (seed) => {
    const folder = mkdtempSync(join(tmpdir(), 'evenhand-evaluated-'));
    onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
    const takes: Judged[] = readdirSync(referenceTakes)
      .filter((name) => name.endsWith('.json'))
      .map((name) => JSON.parse(readFileSync(join(referenceTakes, name), 'utf8')) as Truth)
      .map((truth) => ({ truth, detections: made(truth, seed) }));
    const theirs = theirFigures(takes, folder);
    if (!theirs) {
      process.stderr.write('evaluated.test.ts: left out, there is no python3\n');
      expect(theirs).toBeNull();
      return;
    }
    expect(theirs['F ±5']).toBeGreaterThan(0.3);
    expect(differing(ownFigures(takes), theirs)).toEqual([]);
  },
);

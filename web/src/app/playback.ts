/** Parts of a take to listen to, and the same part played evenly by our own drums. */
import { expectedCycle } from '@evenhand/core/exercise';
import type { Measurement } from '@evenhand/core/measurement';
import { seededRandom } from '@evenhand/core/random';
import { renderStrokes, writtenLevelDb } from '@evenhand/core/sound';
import { writeWav } from '@evenhand/core/take';
import type { HeardPhrase } from './heardphrase.ts';
import { contentOf, readingOf } from './phrase.ts';
import { type Cell, inCell } from './ring.ts';

/** Seconds of the take, the end outside. */
export interface Part {
  readonly fromSec: number;
  readonly toSec: number;
}

/** What to listen to: everything, one cycle, or the strokes to work on in it. */
export type Listened = { readonly of: 'take' } | { readonly of: 'cycle' | 'cell'; readonly cycle: number };

/** So much is heard before the first stroke of a part, for it may come early. Assumption: twice as early as a drummer plays. */
const LEAD_SEC = 0.05;

/** The cycles that were heard, in order. */
export const cyclesIn = ({ strokes }: Measurement): readonly number[] => [...new Set(strokes.map(({ cycle }) => cycle))].sort((a, b) => a - b);

/** The part of the take in which something was to be played; a cell that wraps goes on into the next cycle. Null when there is no such cycle. */
export function partOf({ strokes }: Measurement, listened: Listened, cell: Cell | null): Part | null {
  if (listened.of === 'take') return strokes.length > 0 ? { fromSec: 0, toSec: strokes.at(-1)!.expectedSec + 1 } : null;
  const inOrder = [...strokes].sort((a, b) => a.expectedSec - b.expectedSec);
  const wanted = listened.of === 'cell' && cell ? cell : null;
  const from = inOrder.findIndex(({ cycle, index }) => cycle === listened.cycle && (!wanted || index === wanted.first));
  if (from < 0) return null;
  const past = inOrder.findIndex((stroke, i) => i > from && (wanted ? !inCell(wanted, stroke.index) : stroke.cycle !== listened.cycle));
  const end = past < 0 ? inOrder.at(-1)!.expectedSec + 0.5 : inOrder[past]!.expectedSec;
  return { fromSec: Math.max(0, inOrder[from]!.expectedSec - LEAD_SEC), toSec: end - LEAD_SEC };
}

/** A part of a take as a WAV file. */
export function partAsWav(samples: Float32Array, sampleRateHz: number, { fromSec, toSec }: Part): Uint8Array<ArrayBuffer> {
  const cut = samples.slice(Math.round(fromSec * sampleRateHz), Math.round(toSec * sampleRateHz));
  return new Uint8Array(writeWav(cut, sampleRateHz, { bits: 16 }));
}

/** The strokes of the part where they are written, as loud as they are written: of the same length, so that one can be changed for the other while it plays. */
export function evenAsWav({ measurement, phrase }: HeardPhrase, sampleRateHz: number, { fromSec, toSec }: Part): Uint8Array<ArrayBuffer> {
  const sticking = readingOf(phrase).value;
  const written = sticking ? expectedCycle(contentOf(phrase, sticking)).strokes : [];
  const strokes = measurement.strokes.flatMap(({ index, expectedSec }) => {
    const stroke = written.find((one) => one.index === index);
    if (!stroke || expectedSec < fromSec || expectedSec >= toSec) return [];
    return [{ timeSec: expectedSec - fromSec, surface: stroke.surface, levelDb: writtenLevelDb(stroke) }];
  });
  return new Uint8Array(
    writeWav(renderStrokes(strokes, { sampleRateHz, durationSec: toSec - fromSec, random: seededRandom(1) }), sampleRateHz, { bits: 16 }),
  );
}

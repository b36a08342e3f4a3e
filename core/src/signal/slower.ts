/** A sound slowed at its own pitch: each attack stays as it was and comes at its place, only what rings on after it is drawn out. */
import { ParameterError } from '../errors.ts';
import { SLOWER } from './parameters.ts';

export interface SlowerOptions {
  readonly sampleRateHz: number;
  /** Share of the speed it was played at, above 0 and up to 1. */
  readonly speed: number;
  /** Where something is struck, seconds from the first sample, in any order; without any, all is drawn out alike. */
  readonly attacksSec: readonly number[];
}

/**
 * The same sound, slower: what lies at a second comes at second ÷ speed, an attack to the sample, and the pitch stays. Full speed gives the samples
 * themselves.
 * @source [VerhelstRoelands1993] between the attacks: pieces are laid over each other where they fit best.
 * @departs attacks are never overlapped, for a struck sound smears there.
 */
export function slower(samples: Float32Array, { sampleRateHz, speed, attacksSec }: SlowerOptions): Float32Array {
  if (!(speed > 0 && speed <= 1)) throw new ParameterError('speed', String(speed), 'above 0 and up to 1');
  if (speed === 1) return samples;
  const out = new Float32Array(Math.round(samples.length / speed));
  const [lead, join] = [Math.round(SLOWER.leadSec * sampleRateHz), Math.round(SLOWER.joinSec * sampleRateHz)];
  const starts = startsOf(attacksSec, { sampleRateHz, length: samples.length, lead });
  const placeOf = (start: number) => (start === 0 ? 0 : Math.round((start + lead) / speed) - lead);
  for (const [k, start] of starts.entries()) {
    const end = starts[k + 1] ?? samples.length;
    const to = k + 1 < starts.length ? Math.min(out.length, placeOf(end) + join) : out.length;
    layOver(out, drawnOut(samples.subarray(start, end), to - placeOf(start), sampleRateHz), { at: placeOf(start), join });
  }
  return out;
}

/** First sample of each part, a little before its attack; attacks that fall together are one. */
function startsOf(
  attacksSec: readonly number[],
  of: { readonly sampleRateHz: number; readonly length: number; readonly lead: number },
): readonly number[] {
  const starts = [0];
  const together = SLOWER.togetherSec * of.sampleRateHz;
  for (const sec of [...attacksSec].sort((a, b) => a - b)) {
    const start = Math.round(sec * of.sampleRateHz) - of.lead;
    if (start - starts.at(-1)! >= together && start < of.length) starts.push(start);
  }
  return starts;
}

/** Lays a part into the whole; over its first samples it is faded in while what was there is faded out. */
function layOver(out: Float32Array, part: Float32Array, { at, join }: { readonly at: number; readonly join: number }): void {
  for (let i = 0; i < part.length; i++) {
    const share = at === 0 || i >= join ? 1 : i / join;
    out[at + i] = share * part[i]! + (1 - share) * out[at + i]!;
  }
}

/** A part made longer: its attack as it is, then overlapping pieces of the rest. */
function drawnOut(part: Float32Array, length: number, sampleRateHz: number): Float32Array {
  const out = new Float32Array(length);
  const kept = Math.min(Math.round(SLOWER.attackSec * sampleRateHz), part.length >> 1);
  const hop = Math.min(Math.round(SLOWER.hopSec * sampleRateHz), (part.length - kept) >> 1);
  out.set(part.subarray(0, Math.min(length, kept + hop)));
  if (hop < 1) return out;
  const last = part.length - 2 * hop;
  // The last piece comes from the end: up to there it dies away without a halt.
  const rate = (last - kept) / Math.max(1, length - hop - kept);
  let before: Piece = { from: kept - hop, gain: 1 };
  for (let to = kept; to < length; to += hop) {
    const wanted = Math.min(last, Math.round(kept + (to - kept) * rate));
    const from = bestFit(part, before.from + hop, { wanted, hop, least: kept, most: last });
    const piece = { from, gain: Math.sqrt(powerAt(part, wanted, hop) / (powerAt(part, from, hop) || 1)) };
    addPiece(out, part, { to, hop, before, piece });
    before = piece;
  }
  return out;
}

interface Piece {
  /** From where it is taken. */
  readonly from: number;
  /** What dies away has to go on dying away, wherever the piece fitted best. */
  readonly gain: number;
}

interface Added {
  readonly to: number;
  readonly hop: number;
  readonly before: Piece;
  readonly piece: Piece;
}

/** Fades from the piece before to this one, as loud all through, and lets this one go on for as long again. */
function addPiece(out: Float32Array, part: Float32Array, { to, hop, before, piece }: Added): void {
  const goesOn = before.from + hop;
  const alike = Math.max(0, likeness(part, goesOn, piece.from, { hop, step: 1 }));
  for (let i = 0; i < hop && to + i < out.length; i++) {
    const share = (i + 0.5) / hop;
    const other = 1 - share;
    const power = Math.sqrt(share * share + other * other + 2 * alike * share * other);
    out[to + i] = (share * piece.gain * part[piece.from + i]! + other * before.gain * part[goesOn + i]!) / power;
  }
  for (let i = hop; i < 2 * hop && to + i < out.length; i++) out[to + i] = piece.gain * part[piece.from + i]!;
}

function powerAt(part: Float32Array, at: number, hop: number): number {
  let sum = 0;
  for (let i = at; i < at + 2 * hop; i++) sum += part[i]! * part[i]!;
  return sum;
}

interface Fit {
  /** Where it would be taken from if only time counted. */
  readonly wanted: number;
  readonly hop: number;
  readonly least: number;
  readonly most: number;
}

/** Where near the wanted place the sound is most like what would go on: roughly first, then to the sample. */
function bestFit(part: Float32Array, goesOn: number, { wanted, hop, least, most }: Fit): number {
  const within = (at: number) => Math.max(least, Math.min(most, at));
  const best = (from: number, to: number, step: number) => {
    let [found, highest] = [within(wanted), Number.NEGATIVE_INFINITY];
    for (let at = within(from); at <= within(to); at += step) {
      const alike = likeness(part, goesOn, at, { hop, step });
      if (alike > highest) [found, highest] = [at, alike];
    }
    return found;
  };
  const rough = best(wanted - hop, wanted + hop, ROUGH_STEP);
  return best(rough - ROUGH_STEP, rough + ROUGH_STEP, 1);
}

/** Samples between two places that are tried at first. */
const ROUGH_STEP = 6;

/** How alike two stretches are, −1 to 1. */
function likeness(part: Float32Array, a: number, b: number, { hop, step }: { readonly hop: number; readonly step: number }): number {
  let [both, one, other] = [0, 0, 0];
  for (let i = 0; i < hop && a + i < part.length; i += step) {
    const [x, y] = [part[a + i]!, part[b + i]!];
    both += x * y;
    one += x * x;
    other += y * y;
  }
  return one * other > 0 ? both / Math.sqrt(one * other) : 0;
}

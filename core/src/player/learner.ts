/** A simulated player who practises: plays runs at tempi, gets better by published laws, and forgets between days. */
import type { Random } from '../random.ts';
import { normal } from '../random.ts';
import { msOfSec } from '../units.ts';
import {
  ERROR_FLOOR_SHARE,
  FORM_SD,
  FULL_RUN_STROKES,
  HEARD_ERROR,
  KEPT,
  LEARNING_LAWS,
  PART_SIZES,
  STEADY_SHARE,
  STEEPNESS,
  TWIN_LOSS_SHARE,
} from './learnerparameters.ts';
import { type LearningLaw, shareLeft } from './learningcurves.ts';

/** What a simulated player is like; drawn by `drawLearner`, or given. */
export interface LearnerTraits {
  /** Slots per second at which errors have doubled once everything is learnt. */
  readonly topHz: number;
  /** Deviation of a stroke at ease, as a share of what a run allows. */
  readonly steadyShare: number;
  /** How fast errors grow beyond the limit. */
  readonly steepness: number;
  /** Share of runs spoilt by something else. */
  readonly slipShare: number;
  /** How much each kind of part of an exercise slows this player down before it is learnt, in log tempo. */
  readonly partSizes: Readonly<Record<PartKind, number>>;
  readonly law: LearningLaw;
  /** Share of a day's learning that is there the next day, after playing in a row and after mixed playing. */
  readonly kept: { readonly inARow: number; readonly mixed: number };
  /** Days in which half of what was learnt fades without practice. */
  readonly fadeDays: number;
  /** Deviation of the form of a day, in log tempo. */
  readonly formSd: number;
  /** A second technique that only works from a speed on: below it and above the first, nothing holds. Shares of the first technique's speed. */
  readonly second: { readonly fromShare: number; readonly toShare: number } | null;
}

/** What an exercise is made of, as far as learning one part helps others that share it. */
export type PartKind = 'sticking' | 'rhythm' | 'drums' | 'own';

/** An exercise as a player sees it: the same key in two exercises is the same thing to learn. */
export type Parts = Readonly<Record<PartKind, string>>;

/** What was practised of one part. */
interface Learnt {
  /** Repetitions that stayed. */
  readonly kept: number;
  /** Repetitions of today. */
  readonly today: number;
}

/** A player on a day. */
export interface Learner {
  readonly traits: LearnerTraits;
  readonly learnt: ReadonlyMap<string, Learnt>;
  /** Log tempo by which today is better or worse than usual. */
  readonly form: number;
  /** Keys of the exercises of today, in order, each as often as it was returned to. */
  readonly played: readonly Parts[];
}

const PART_KINDS: readonly PartKind[] = ['sticking', 'rhythm', 'drums', 'own'];

/** A player drawn at random; one in `holeShare` has two techniques with a poor zone between. */
export function drawLearner(random: Random, { holeShare = 0 }: { readonly holeShare?: number } = {}): Learner {
  const between = ({ least, most }: { readonly least: number; readonly most: number }) => least + (most - least) * random();
  const holed = random() < holeShare;
  const traits: LearnerTraits = {
    topHz: Math.exp(between({ least: Math.log(5), most: Math.log(12) })),
    steadyShare: between(STEADY_SHARE),
    steepness: between(STEEPNESS),
    slipShare: between({ least: 0, most: 0.03 }),
    partSizes: {
      sticking: between(PART_SIZES.sticking),
      rhythm: between(PART_SIZES.rhythm),
      drums: between(PART_SIZES.drums),
      own: between(PART_SIZES.own),
    },
    law: drawLaw(random, between),
    kept: { inARow: between(KEPT.inARow), mixed: between(KEPT.mixed) },
    fadeDays: between(KEPT.fadeDays),
    formSd: between(FORM_SD),
    second: holed ? { fromShare: between({ least: 1.2, most: 1.4 }), toShare: between({ least: 1.7, most: 2 }) } : null,
  };
  return { traits, learnt: new Map(), form: 0, played: [] };
}

function drawLaw(random: Random, between: (range: { readonly least: number; readonly most: number }) => number): LearningLaw {
  const { rate, exponent } = LEARNING_LAWS;
  const draw = random();
  if (draw < 1 / 2) return { kind: 'exponential', rate: between(rate) };
  if (draw < 3 / 4) return { kind: 'power', exponent: between(exponent) };
  return { kind: 'apex', rate: between(rate) / 2, exponent: between(exponent) / 2 };
}

/** Speed at which the player's errors have doubled on an exercise today, slots per second. */
export function limitHz({ traits, learnt, form }: Learner, parts: Parts): number {
  const slower = PART_KINDS.reduce((sum, kind) => {
    const { kept, today } = learnt.get(parts[kind]) ?? { kept: 0, today: 0 };
    return sum + traits.partSizes[kind] * shareLeft(kept + today, traits.law);
  }, 0);
  return traits.topHz * Math.exp(form - slower);
}

/** Odds of a clean run at a speed, in closed form: eight normal errors within what a run allows. */
export function runOdds(learner: Learner, parts: Parts, speedHz: number): number {
  const within = shareWithin(1 / errorShare(learner, parts, speedHz));
  return (1 - learner.traits.slipShare) * within ** FULL_RUN_STROKES;
}

/** Deviation of a stroke as a share of what a run allows at that speed; with two techniques, that of the better one. */
function errorShare(learner: Learner, parts: Parts, speedHz: number): number {
  const { steadyShare, steepness, second } = learner.traits;
  const limit = limitHz(learner, parts);
  // What is allowed is a share of the slot when slots are long, and 6 ms at least when they are short: then errors weigh more.
  const heardMs = Math.max(HEARD_ERROR.ms, msOfSec(HEARD_ERROR.slotShare / speedHz));
  const ease = steadyShare * (HEARD_ERROR.ms / heardMs) ** ERROR_FLOOR_SHARE;
  const first = ease * (1 + (speedHz / limit) ** steepness);
  if (!second) return first;
  const other = ease * (1 + ((second.fromShare * limit) / speedHz) ** (2 * steepness) + (speedHz / (second.toShare * limit)) ** steepness);
  return Math.min(first, other);
}

/** Share of a normal distribution within ±z deviations, by Simpson's rule. */
function shareWithin(z: number): number {
  if (z > 8) return 1;
  const steps = 24;
  const density = (x: number) => Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
  const inner = Array.from({ length: steps - 1 }, (_, k) => (k % 2 === 0 ? 4 : 2) * density(((k + 1) * z) / steps)).reduce((a, b) => a + b);
  return (2 * z * (density(0) + inner + density(z))) / (3 * steps);
}

/** Ranges of speed, slots per second, in which the odds of a clean run are at least `share`: one, or two with a poor zone between. */
export function cleanRangesHz(learner: Learner, parts: Parts, share: number): readonly { readonly fromHz: number; readonly toHz: number }[] {
  const step = 0.002;
  const ranges: { fromHz: number; toHz: number }[] = [];
  let inside = false;
  for (let log = Math.log(0.7); log < Math.log(40); log += step) {
    const clean = runOdds(learner, parts, Math.exp(log)) >= share;
    if (clean && !inside) ranges.push({ fromHz: Math.exp(log), toHz: Math.exp(log) });
    if (clean) ranges.at(-1)!.toHz = Math.exp(log + step / 2);
    inside = clean;
  }
  return ranges;
}

/** What came of some runs, and the player after them. */
export interface Practised {
  readonly learner: Learner;
  readonly clean: number;
}

/**
 * Plays runs of an exercise at a speed and learns from them: most from runs at the edge of what is possible, less from easy ones, hardly from
 * those that fall apart.
 * @source [Wilson2019] the speed of learning follows z·e^(−z²/2) with z the distance from an even chance, largest at 84 % clean.
 */
export function playRuns(learner: Learner, parts: Parts, { speedHz, runs, random }: { speedHz: number; runs: number; random: Random }): Practised {
  let clean = 0;
  const odds = runOdds(learner, parts, speedHz);
  for (let run = 0; run < runs; run++) if (random() < odds) clean++;
  return { learner: learnFrom(learner, parts, runs * gain(odds)), clean };
}

/** Learning of a run, 1 at its best. */
function gain(odds: number): number {
  const z = Math.max(0, inverseNormal(odds));
  return Math.max(0.1, z * Math.exp((1 - z * z) / 2));
}

/** Standard normal value that the share `share` lies below, by halving. */
function inverseNormal(share: number): number {
  let [low, high] = [-5, 5];
  for (let k = 0; k < 30; k++) {
    const middle = (low + high) / 2;
    const below = 0.5 + (Math.sign(middle) * shareWithin(Math.abs(middle))) / 2;
    if (below < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function learnFrom(learner: Learner, parts: Parts, repetitions: number): Learner {
  const learnt = new Map(learner.learnt);
  for (const kind of PART_KINDS) {
    const { kept, today } = learnt.get(parts[kind]) ?? { kept: 0, today: 0 };
    learnt.set(parts[kind], { kept, today: today + repetitions });
  }
  const returned = learner.played.at(-1) !== parts;
  return { ...learner, learnt, played: returned ? [...learner.played, parts] : learner.played };
}

/**
 * Sleeps over the day and `days` − 1 more without practice: what was learnt today stays in part, more of it after mixed playing; what stayed
 * fades; the new day has a form of its own. A day that ends on something much like the phrase, but not on it, costs the phrase part of its gain.
 * @param twins whether two exercises are so alike that the second blurs the first.
 * @source [Czyz2024] mixed playing keeps more; [Allen2013] a similar melody afterwards costs what the night would give.
 */
export function sleep(learner: Learner, { days, twins, random }: { days: number; twins: (a: Parts, b: Parts) => boolean; random: Random }): Learner {
  const { traits, played } = learner;
  const different = new Set(played).size;
  const keptShare = different > 1 && played.length > different ? traits.kept.mixed : traits.kept.inARow;
  const last = played.at(-1);
  const blurred = new Set(played.filter((parts) => last && parts !== last && twins(parts, last)).map(({ own }) => own));
  const fade = 0.5 ** (days / traits.fadeDays);
  const learnt = new Map(
    [...learner.learnt].map(([key, { kept, today }]) => {
      const loss = blurred.has(key) ? TWIN_LOSS_SHARE : 0;
      return [key, { kept: (kept + today * keptShare * (1 - loss)) * fade, today: 0 }] as const;
    }),
  );
  return { ...learner, learnt, form: traits.formSd * normal(random), played: [] };
}

/** Then and now out of a diary, as a file of the kind that its name ends in. */
import { decodeFlac } from '@evenhand/adapters/flac';
import type { PaperSize } from '@evenhand/adapters/paper-size';
import { thenNowHtml, thenNowPdf, thenNowSvg, thenNowWav } from '@evenhand/adapters/report';
import { fold, type KnownRecord } from '@evenhand/core/diary';
import { expectedCycle } from '@evenhand/core/exercise';
import { measure } from '@evenhand/core/measurement';
import type { ShownShape } from '@evenhand/core/picture';
import { comparisonsOf, type HeardAs, type SoundingTake, type TakesCompared, type ThenNowSound, thenNowSound } from '@evenhand/core/progress';
import { hear } from '@evenhand/core/stroke';
import { fileClock } from '@evenhand/core/take';
import { type SaidProblem, say } from '@evenhand/core/words';
import type { ReadableDiary } from './diary-folder/diary-at.ts';
import type { Tried } from './files.ts';
import { doubt, refuse } from './problems.ts';

/** Kinds of file, by the end of their name. */
export const THEN_NOW_ENDINGS = ['.html', '.pdf', '.png', '.svg', '.wav'] as const;
type Ending = (typeof THEN_NOW_ENDINGS)[number];

/** What the latest take is held against, as it is typed. */
export const AGAINST = { days: 'first', week: 'week', drums: 'pad' } as const satisfies Readonly<Record<TakesCompared['of'], string>>;

/** How it was asked for. */
export interface ThenNowAsked {
  readonly ending: Ending;
  /** First and last, the latest and that of a week before, or the latest on a pad and on the kit. */
  readonly of: TakesCompared['of'];
  readonly shape: ShownShape;
  readonly as: HeardAs;
  /** Share of the speed it was played at. */
  readonly speed: number;
  readonly size: PaperSize;
  readonly madeMs: number;
}

/** A file, and what it says in figures. */
export interface ThenNowMade {
  readonly bytes: Uint8Array;
  readonly told: Readonly<Record<string, unknown>> & { readonly changes: readonly { readonly code: string; readonly text: string }[] };
  readonly problems: readonly SaidProblem[];
}

/** Makes it; refused when the diary has no two takes to compare, or the sound that was asked for is not there. */
export async function makeThenNow(diary: ReadableDiary, asked: ThenNowAsked): Promise<Tried<ThenNowMade>> {
  const compared = comparisonsOf(fold(diary.records)).find(({ of }) => of === asked.of);
  if (!compared) return { problem: refuse('then-now-none', { of: asked.of }) };
  const wantsSound = asked.ending === '.wav' || asked.ending === '.html';
  const sound = wantsSound ? await soundOfBoth(diary, compared, asked) : null;
  if (asked.ending === '.wav' && !sound) return { problem: refuse('then-now-no-sound', {}) };
  const problems = wantsSound && !sound ? [doubt('then-now-without-sound', {})] : [];
  const bytes = await bytesOf(compared, sound, asked);
  return { value: { bytes, told: toldOf(compared, sound !== null), problems } };
}

async function bytesOf(compared: TakesCompared, sound: ThenNowSound | null, { ending, shape, size, madeMs }: ThenNowAsked): Promise<Uint8Array> {
  if (ending === '.pdf') return thenNowPdf(compared, { madeMs, size });
  if (ending === '.wav') return thenNowWav(sound!, compared);
  if (ending === '.html') return new TextEncoder().encode(thenNowHtml(compared, { sound }));
  const svg = thenNowSvg(compared, shape);
  return ending === '.png' ? (await import('./picture-png.ts')).pngOf(svg) : new TextEncoder().encode(svg);
}

function toldOf({ of, blocks, thenDay, nowDay, tempoBpm, told, volumes }: TakesCompared, sound: boolean): ThenNowMade['told'] {
  const { id, sticking, perBeat } = blocks[1].body.exercise;
  const setupDiffers = told.said.some(({ code }) => code === 'progress-setup-differs');
  const changes = [...told.said, ...volumes.said].map((one) => ({ ...one, text: say(one) }));
  return { of: AGAINST[of], exerciseId: id, sticking, perBeat, tempoBpm, thenDay, nowDay, setupDiffers, sound, changes };
}

async function soundOfBoth(
  diary: ReadableDiary,
  { blocks }: TakesCompared,
  { as, speed }: Pick<ThenNowAsked, 'as' | 'speed'>,
): Promise<ThenNowSound | null> {
  const [then, now] = [await soundingTake(diary, blocks[0]), await soundingTake(diary, blocks[1])];
  return then && now && thenNowSound(then, now, { as, speed });
}

/** The longest take of a block, heard anew; null when its sound is not there, or too little of it can be told. */
async function soundingTake({ soundOf, records }: ReadableDiary, { body }: KnownRecord<'block'>): Promise<SoundingTake | null> {
  let longest: { readonly takeId: string; readonly samples: Float32Array; readonly sampleRateHz: number } | null = null;
  for (const takeId of body.takeIds) {
    const flac = await soundOf(takeId);
    const take = flac && (await decodeFlac(flac));
    if (take && take.samples.length > (longest?.samples.length ?? 0)) longest = { ...take, takeId };
  }
  if (!longest) return null;
  const { takeId, samples, sampleRateHz } = longest;
  const clickTimesSec = (records.find(({ id }) => id === takeId)?.body as { readonly clicksSec?: readonly number[] } | undefined)?.clicksSec ?? [];
  const { candidates, loudness } = hear({ samples, clock: fileClock(sampleRateHz) });
  const { value } = measure(candidates, expectedCycle(body.exercise), {
    tempoBpm: body.tempoBpm,
    durationSec: samples.length / sampleRateHz,
    ...(clickTimesSec.length > 0 ? { clickTimesSec } : {}),
    ...(loudness ? { loudness } : {}),
  });
  return value && { samples, sampleRateHz, measurement: value };
}

/** Which takes of a diary are held against each other: first and last, this week and last, pad and kit. */
import { daysBetween } from '../day.ts';
import type { DiaryView, KnownRecord } from '../diary/index.ts';
import type { Measurement } from '../measurement/index.ts';
import { fastestWithTwoDays, linesDiffer, referenceTake } from './referencetakes.ts';
import { blocksOf, isReference } from './results.ts';
import { type ReferenceTake, type ThenAndNow, thenAndNow } from './thenandnow.ts';
import { type VolumesThenAndNow, volumesThenAndNow } from './volumes.ts';

/** Two takes of one phrase at one tempo. */
export interface TakesCompared {
  /** The first and the last; the latest and that of a week before; the latest on a pad and on the kit. */
  readonly of: 'days' | 'week' | 'drums';
  /** The blocks that are compared, and what is kept of their measurements. */
  readonly blocks: readonly [then: KnownRecord<'block'>, now: KnownRecord<'block'>];
  readonly measured: readonly [then: Measurement, now: Measurement];
  /** With what each was made, by name; what was not said is missing. */
  readonly setups: readonly [then: ReferenceTake['setup'], now: ReferenceTake['setup']];
  readonly thenDay: string;
  readonly nowDay: string;
  readonly tempoBpm: number;
  readonly perBeat: number;
  readonly told: ThenAndNow;
  readonly volumes: VolumesThenAndNow;
}

type Block = KnownRecord<'block'>;

const WEEK_DAYS = 7;

/**
 * Every comparison that the diary allows: the first and the last reference take of the phrase heard last, at its fastest tempo that has them on two
 * days; the last against that of a week before, where that is another pair; pad against kit.
 */
export function comparisonsOf(diary: DiaryView): readonly TakesCompared[] {
  const drums = padAgainstKit(diary);
  return [...overTime(diary), ...(drums ? [drums] : [])];
}

function overTime(diary: DiaryView): readonly TakesCompared[] {
  const same = takesOfLatest(diary);
  if (!same) return [];
  const [first, last] = [same[0]!, same.at(-1)!];
  const before = weekBefore(last, same);
  const week = before && before.day !== first.day ? [compare(before, last, diary, 'week')] : [];
  return [compare(first, last, diary, 'days'), ...week];
}

/** Reference takes that can be compared, of the exercise that was heard as one last: an old phrase that was faster does not stand before the present one. */
function takesOfLatest(diary: DiaryView): readonly Block[] | null {
  const takes = blocksOf(diary).filter((block) => isReference(block) && block.body.heard !== null);
  const ids = new Set([...takes].reverse().map(({ body }) => body.exercise.id));
  for (const id of ids) {
    const same = fastestWithTwoDays(takes.filter(({ body }) => body.exercise.id === id));
    if (same) return same;
  }
  return null;
}

/** Of takes the one nearest to a week before another. */
function weekBefore({ day: last }: Block, takes: readonly Block[]): Block | undefined {
  const offWeek = ({ day }: Block) => Math.abs(daysBetween(day, last) - WEEK_DAYS);
  return takes.filter(({ day }) => day < last).sort((a, b) => offWeek(a) - offWeek(b) || (a.day < b.day ? 1 : -1))[0];
}

/** The latest takes of one sticking at one tempo with the hands on a pad, and with none of them on one. */
function padAgainstKit(diary: DiaryView): TakesCompared | null {
  const heard = [...blocksOf(diary)].reverse().filter(({ body }) => body.heard !== null);
  const onPad = ({ body }: Block) => body.exercise.surfaces.includes('pad');
  const keyOf = ({ body }: Block) => `${body.exercise.sticking} ${body.exercise.perBeat} ${body.tempoBpm}`;
  const onKit = new Map([...heard].reverse().flatMap((block) => (onPad(block) ? [] : [[keyOf(block), block] as const])));
  const pad = heard.find((block) => onPad(block) && onKit.has(keyOf(block)));
  return pad ? compare(pad, onKit.get(keyOf(pad))!, diary, 'drums') : null;
}

function compare(then: Block, now: Block, diary: DiaryView, of: TakesCompared['of']): TakesCompared {
  const takes = [referenceTake(then, diary), referenceTake(now, diary)] as const;
  const { tempoBpm, exercise } = now.body;
  const compared = thenAndNow(...takes, of === 'drums' ? 'drums' : 'days');
  const told = { ...compared, rest: [...compared.rest, ...linesDiffer(then, now, compared.said)] };
  // One drum is louder than another by itself.
  const volumes = of === 'drums' ? { steps: [], places: [], said: [] } : volumesThenAndNow(...takes);
  const measured = [takes[0].measurement, takes[1].measurement] as const;
  const setups = [takes[0].setup, takes[1].setup] as const;
  return { of, blocks: [then, now], measured, setups, thenDay: then.day, nowDay: now.day, tempoBpm, perBeat: exercise.perBeat, told, volumes };
}

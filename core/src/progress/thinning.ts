/** Which takes' sound goes by the player's rules, and which never does. Nothing is done here. */
import { addMonths, daysBetween, startOfWeek } from '../day.ts';
import { type DiaryView, type KnownRecord, letGoOf, type SettingBody, type ShownTake } from '../diary/index.ts';
import { TARGET_SHARE } from '../tempo/index.ts';
import { comparisonsOf } from './comparisons.ts';
import { LATEST_DAYS, MB, THINNING_RANGES } from './parameters.ts';
import { blocksOf, isReference } from './results.ts';

/** What the player wants of the sound of takes. Without months and megabytes every take is kept. */
export interface ThinningRules {
  /** Every take is kept for so many months; null: no age lets one go. */
  readonly months: number | null;
  /** The sound of all takes together takes so many megabytes (of a million bytes) at most; null: as much as it takes. */
  readonly mostMb: number | null;
  /** Of each exercise the first take that was clean at a tempo stays. */
  readonly firstClean: boolean;
  /** Of each exercise the first and the last take of each week, or of each month, stay. */
  readonly ends: 'none' | 'week' | 'month';
}

/** Settings of the diary that hold the rules, by their names there. */
export const THINNING_SETTINGS = { months: 'keepMonths', mostMb: 'keepMb', firstClean: 'keepFirstClean', ends: 'keepEnds' } as const;

export const THINNING_ENDS = ['none', 'week', 'month'] as const satisfies readonly ThinningRules['ends'][];

/** The rules of a diary; what is missing or damaged is as if nothing had been said: every take is kept, and by age or room not the first clean ones. */
export function thinningRules(settings: Readonly<Record<string, SettingBody['value']>>): ThinningRules {
  const whole = (of: 'months' | 'mostMb'): number | null => {
    const value = settings[THINNING_SETTINGS[of]];
    return typeof value === 'number' && isThinningNumber(of, value) ? value : null;
  };
  const ends = THINNING_ENDS.find((one) => one === settings[THINNING_SETTINGS.ends]) ?? 'month';
  return { months: whole('months'), mostMb: whole('mostMb'), firstClean: settings[THINNING_SETTINGS.firstClean] !== false, ends };
}

/** Whether a number can be one of the rules. */
export const isThinningNumber = (of: keyof typeof THINNING_RANGES, value: number): boolean =>
  Number.isInteger(value) && value >= THINNING_RANGES[of].least && value <= THINNING_RANGES[of].most;

/** The sound of a take as it is kept. */
export interface KeptSound {
  readonly takeId: string;
  readonly byteCount: number;
}

/** What would go. */
export interface Thinning {
  readonly takeIds: readonly string[];
  readonly byteCount: number;
  /** First and last practice day of the takes that would go; null when none would. */
  readonly fromDay: string | null;
  readonly toDay: string | null;
  /** What would stay. */
  readonly stays: { readonly takeCount: number; readonly byteCount: number };
  /** What stays is more than was wanted, because the rest is never let go. */
  readonly isOver: boolean;
}

/** Takes whose sound is never let go: reference takes, those of then and now, those with a line or an idea kept of them, and those of the last days. */
export function protectedTakes(diary: DiaryView, today: string): ReadonlySet<string> {
  const blocks = blocksOf(diary);
  const compared = comparisonsOf(diary).flatMap((one) => one.blocks);
  const notes = diary.days.flatMap(({ notes: of }) => of.flatMap(({ body }) => (body.part ? [body.part.takeId] : [])));
  const latest = takesIn(diary).filter(({ day }) => daysBetween(day, today) < LATEST_DAYS);
  return new Set([...[...blocks.filter(isReference), ...compared].flatMap(({ body }) => body.takeIds), ...notes, ...latest.map(({ id }) => id)]);
}

/**
 * What would go by the rules, oldest first. The same asked again after it went gives nothing.
 * @param sounds takes whose sound is here; one that no record speaks of, or that was let go already, is passed over.
 * @param today practice day.
 */
export function planThinning(
  diary: DiaryView,
  sounds: readonly KeptSound[],
  { rules, today }: { readonly rules: ThinningRules; readonly today: string },
): Thinning {
  const gone = letGoOf(diary);
  const size = new Map(sounds.map(({ takeId, byteCount }) => [takeId, byteCount]));
  const takes = takesIn(diary).filter(({ id }) => size.has(id) && !gone.has(id));
  const stays = new Set([...protectedTakes(diary, today), ...keptByRules(diary, takes, rules)]);
  const free = takes.filter(({ id }) => !stays.has(id));
  const bytesOf = (of: readonly ShownTake[]) => of.reduce((sum, { id }) => sum + size.get(id)!, 0);
  const oldest = rules.months === null ? '' : addMonths(today, -rules.months);
  const going = free.filter(({ day }) => day < oldest);
  let left = bytesOf(takes) - bytesOf(going);
  const mostBytes = rules.mostMb === null ? Number.POSITIVE_INFINITY : rules.mostMb * MB;
  for (const take of free.slice(going.length)) {
    if (left <= mostBytes) break;
    going.push(take);
    left -= size.get(take.id)!;
  }
  return {
    takeIds: going.map(({ id }) => id),
    byteCount: bytesOf(going),
    fromDay: going[0]?.day ?? null,
    toDay: going.at(-1)?.day ?? null,
    stays: { takeCount: takes.length - going.length, byteCount: left },
    isOver: left > mostBytes,
  };
}

/** Every take of the diary, the oldest first. */
const takesIn = (diary: DiaryView): readonly ShownTake[] =>
  diary.days
    .flatMap(({ sessions, loose }) => [...sessions.flatMap(({ takes }) => takes), ...loose.filter((part): part is ShownTake => part.kind === 'take')])
    .sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : a.atMs - b.atMs));

/** Takes that the player chose to keep. @param takes those with sound, the oldest first. */
function keptByRules(diary: DiaryView, takes: readonly ShownTake[], { firstClean, ends }: ThinningRules): readonly string[] {
  const blocks = blocksOf(diary);
  const exerciseOf = new Map(blocks.flatMap(({ body }) => body.takeIds.map((takeId) => [takeId, body.exercise.id] as const)));
  const periodOf = (day: string): string => (ends === 'week' ? startOfWeek(day) : day.slice(0, 7));
  const groups = new Map<string, ShownTake[]>();
  for (const take of ends === 'none' ? [] : takes) {
    const key = `${exerciseOf.get(take.id) ?? ''} ${periodOf(take.day)}`;
    groups.set(key, [...(groups.get(key) ?? []), take]);
  }
  const firstAndLast = [...groups.values()].flatMap((of) => [of[0]!.id, of.at(-1)!.id]);
  return firstClean ? [...firstAndLast, ...firstCleanOf(blocks)] : firstAndLast;
}

/** Takes of the first block of each exercise and tempo in which enough runs were clean. */
function firstCleanOf(blocks: readonly KnownRecord<'block'>[]): readonly string[] {
  const clean = blocks.filter(({ body: { heard } }) => heard && heard.runCount > 0 && heard.cleanRunCount >= TARGET_SHARE * heard.runCount);
  const first = new Map<string, KnownRecord<'block'>>();
  for (const block of clean) {
    const key = `${block.body.exercise.id} ${block.body.tempoBpm}`;
    if (!first.has(key)) first.set(key, block);
  }
  return [...first.values()].flatMap(({ body }) => body.takeIds);
}

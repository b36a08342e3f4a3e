/** The development takes with exact truth beside this repository (reference/takes/ORIGIN.md there), read as the command line wants them told. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const home = join(import.meta.dirname, '../../../shared/reference/takes');

/** Why takes cannot be read, or null. */
export const takesMissing = existsSync(home) ? null : 'skipped: the takes of ../shared/reference are not on this machine';

interface TruthStroke {
  /** Seconds; null when missed. */
  readonly onset: number | null;
  readonly index: number;
  readonly missed: boolean;
  readonly extra: boolean;
  readonly timingErrorMs: number;
  readonly rms20Dbfs: number;
}

interface Truth {
  readonly pattern: { readonly notation: string; readonly subdivisionsPerBeat: number };
  readonly tempoBpm: number;
  readonly clicks?: readonly number[];
  readonly perStroke: readonly { readonly index: number; readonly surface: string; readonly graceMs: number }[];
  readonly strokes: readonly TruthStroke[];
}

/** What is true of one main stroke of the sticking. */
export interface TruePlace {
  readonly surface: string;
  readonly medianErrorMs: number;
  readonly meanLevelDb: number;
}

export interface ReferenceTake {
  readonly id: string;
  readonly file: string;
  readonly sticking: string;
  readonly perBeat: number;
  readonly tempoBpm: number;
  readonly surfaces: string;
  readonly clicks: readonly number[];
  readonly places: readonly TruePlace[];
}

/** Twelve takes, or none when they are not on this machine. */
export const referenceTakes = (): ReferenceTake[] =>
  takesMissing
    ? []
    : readdirSync(home)
        .filter((name) => /^D\d+.*\.json$/.test(name))
        .sort()
        .map((name) => name.replace('.json', ''))
        .map((id) => takeOf(id, truthOf(id)));

const truthOf = (id: string): Truth => JSON.parse(readFileSync(join(home, `${id}.json`), 'utf8'));

/** Onsets of all strokes that sound in a take, graces and extra ones too, in seconds, rising. */
export const truthStrokes = (id: string): number[] =>
  truthOf(id)
    .strokes.flatMap(({ onset }) => (onset === null ? [] : [onset]))
    .sort((a, b) => a - b);

function takeOf(id: string, truth: Truth): ReferenceTake {
  const mains = truth.perStroke.filter(({ graceMs }) => graceMs === 0);
  return {
    id,
    file: join(home, `${id}.flac`),
    sticking: truth.pattern.notation.split(' ').map(slotOf).join(' '),
    perBeat: truth.pattern.subdivisionsPerBeat,
    tempoBpm: truth.tempoBpm,
    surfaces: mains.map(({ surface }) => surface).join(' '),
    clicks: truth.clicks ?? [],
    places: mains.map(({ index, surface }) => {
      const played = truth.strokes.filter((stroke) => stroke.index === index && !stroke.missed && !stroke.extra);
      return { surface, medianErrorMs: median(played.map((each) => each.timingErrorMs)), meanLevelDb: mean(played.map((each) => each.rms20Dbfs)) };
    }),
  };
}

/** One slot of that source's notation in our language: `fR^` is `>lR`, `R=` and `R.` are `R`. */
function slotOf(token: string): string {
  const [, grace = '', limb = '', accent = ''] = /^([fd]?)([RLKH-])(\^?)/.exec(token)!;
  const other = limb === 'R' ? 'l' : 'r';
  return `${accent ? '>' : ''}${grace === 'f' ? other : grace === 'd' ? other + other : ''}${limb}`;
}

export const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

export const median = (values: readonly number[]): number => quantile(values, 0.5);

/** The value below which a share of the values lies, between neighbours by distance. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const at = share * (sorted.length - 1);
  const low = Math.floor(at);
  return sorted[low]! + (at - low) * ((sorted[low + 1] ?? sorted[low]!) - sorted[low]!);
}

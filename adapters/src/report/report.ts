/** What was heard of phrases as a page for a student, in words and as PDF: the apps and the command line write the same. */
import { type ExerciseContent, exercisesFor, expectedCycle, readFocus, stickingOfContent } from '@evenhand/core/exercise';
import { againstAlikeDb, cellToWorkOn, spacesMs, volumeWord } from '@evenhand/core/finding';
import type { Measurement } from '@evenhand/core/measurement';
import { ringPicture, ringRows } from '@evenhand/core/picture';
import type { Statement } from '@evenhand/core/problem';
import { equalSpeedBpm } from '@evenhand/core/units';
import { type Language, type ReportStatement, say } from '@evenhand/core/words';
import type { FindingsPage, PrintedAs } from '../paper/index.ts';
import { comes } from './comes.ts';

/** A finding, as it was made or as a diary keeps it: with or without what it fits. */
export type ReportedFinding = Statement & { readonly indices: readonly number[]; readonly fits?: readonly Statement[] };

/** A phrase that was heard. */
export interface ReportedPhrase {
  readonly content: ExerciseContent;
  readonly tempoBpm: number;
  /** Practice day, `YYYY-MM-DD`; empty when it is not known. */
  readonly day: string;
  /** As the ear gave it; a diary keeps no single strokes, so there they are missing. */
  readonly measurement: Measurement;
  /** The likeliest first. */
  readonly findings: readonly ReportedFinding[];
}

/** What a report says of itself. */
export interface ReportOptions extends PrintedAs {
  readonly day: string;
}

/** So many exercises to take home: two or three, not twelve. @source [JobBrief] */
const EXERCISES = 3;
/** They start at this share of the tempo heard. @source [JobBrief] each new setting is expected to start lower; the share is an assumption, that of a new plan. */
const START_SHARE = 0.75;
/** Sentences at most, so that the page stays one page. Assumption. */
const SENTENCES = 4;
const RING_PX = 400;

/** Phrases as PDF, one page each; none gives a page that says so. Loads what it draws with when first asked. */
export async function reportPdf(phrases: readonly ReportedPhrase[], { day, ...printed }: ReportOptions): Promise<Uint8Array> {
  const { language = 'en' } = printed;
  const { findingsPaper } = await import('../paper/index.ts');
  const foot = say({ code: 'report-foot', params: { day } }, language);
  const pages = phrases.map((phrase, number) => reportPage(phrase, { language, number }));
  const nothing = say({ code: 'report-nothing', params: {} }, language);
  return findingsPaper(pages, { title: pages[0]?.title ?? foot, foot, nothing, ...printed });
}

/** The page of one phrase. @param place `number` of the page, from 0: ids in its picture begin with it. */
export function reportPage(
  phrase: ReportedPhrase,
  { language = 'en', number = 0 }: { readonly language?: Language; readonly number?: number } = {},
): FindingsPage {
  const { content, tempoBpm, day, measurement, findings } = phrase;
  const { sticking, perBeat } = content;
  const said = (statement: ReportStatement) => say(statement, language);
  const heading = (of: 'strokes' | 'try' | 'care') => said({ code: 'report-heading', params: { of } });
  const cycleCount = new Set(measurement.strokes.map(({ cycle }) => cycle)).size;
  return {
    title: said({ code: 'report-title', params: { sticking, tempoBpm, perBeat } }),
    made: said({ code: 'report-made', params: { day, cycleCount } }),
    said: findings.slice(0, SENTENCES).map((finding) => say(finding, language)),
    ring: ringPicture(measurement, expectedCycle(content), { widthPx: RING_PX, id: `report-${number}`, sticking, perBeat, language }),
    strokes: {
      heading: heading('strokes'),
      columns: (['stroke', 'drum', 'comes', 'varies', 'volume'] as const).map((of) => said({ code: 'report-column', params: { of } })),
      rows: rowsOf(phrase, said),
    },
    tries: { heading: heading('try'), lines: triesOf(phrase, language) },
    care: {
      heading: heading('care'),
      lines: (['hearing', 'warm', 'stop', 'clinician'] as const).map((of) => said({ code: 'report-care', params: { of } })),
    },
  };
}

function rowsOf({ content, measurement }: ReportedPhrase, said: (statement: ReportStatement) => string): string[][] {
  const cycle = expectedCycle(content);
  const spaces = spacesMs(measurement, cycle);
  return ringRows(measurement, cycle).map(({ index, limb, surface, biasMs, lowMs, highMs, spreadMs, missed, notAudible }) => {
    // Without an interval too few strokes were heard surely.
    const sure = biasMs !== null && lowMs !== null && highMs !== null;
    const volumeDb = againstAlikeDb(index, measurement, cycle);
    const volume = volumeDb === null ? '' : said({ code: 'report-volume', params: { word: volumeWord(volumeDb), volumeDb } });
    const gone = said({ code: 'report-missed', params: { missed, notAudible } });
    return [
      `${index + 1} ${limb}`,
      surface,
      said(comes({ biasMs, lowMs, highMs }, spaces[index]!)),
      sure && spreadMs !== null ? said({ code: 'report-varies', params: { spreadMs } }) : '',
      [volume, gone].filter((part) => part !== '').join('; '),
    ];
  });
}

/** What it fits, then a few exercises for the strokes concerned, of different families. */
function triesOf({ content, tempoBpm, findings }: ReportedPhrase, language: Language): string[] {
  const fits = (findings[0]?.fits ?? []).map((fit) => say(fit, language));
  const sticking = stickingOfContent(content);
  if (!findings.some(({ indices }) => indices.length > 0)) return [say({ code: 'report-try-nothing', params: {} }, language)];
  const focus = readFocus(cellToWorkOn(findings, sticking.strokes.length), sticking).value;
  const { exercises } = focus ? exercisesFor(content, focus) : { exercises: [] };
  const families = [...new Set(exercises.map(({ family }) => family))];
  const chosen = families.slice(0, EXERCISES).map((family) => exercises.find((exercise) => exercise.family === family)!);
  const tries = chosen.map((exercise) => {
    const sameSpeedBpm = equalSpeedBpm(tempoBpm, content.perBeat, exercise.perBeat);
    return say(
      {
        code: 'report-try',
        params: { title: say(exercise.title, language), perBeat: exercise.perBeat, tempoBpm: Math.round(START_SHARE * sameSpeedBpm) },
      },
      language,
    );
  });
  return [...fits, ...tries];
}

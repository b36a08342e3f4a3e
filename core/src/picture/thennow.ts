/** Then and now in one picture to show: two rings beside each other and what changed in words, square or wide. */
import type { ExpectedCycle } from '../exercise/index.ts';
import type { Measurement } from '../measurement/index.ts';
import type { Statement } from '../problem.ts';
import type { ChangeStatement, StepStatement } from '../progress/index.ts';
import { type Language, say } from '../words/index.ts';
import { brokenAt } from './lines.ts';
import { RING_MOST_PX, SHOWN_PX } from './parameters.ts';
import { ringPicture, ringTimes } from './ring.ts';
import { element, svg, textAt } from './svg.ts';

/** square: 1080 × 1080. wide: 1920 × 1080. */
export type ShownShape = 'square' | 'wide';

export interface ShownTake {
  readonly day: string;
  readonly measurement: Measurement;
}

export interface ThenNowPictureOptions {
  readonly shape: ShownShape;
  /** What parts the two takes: it only decides their captions. */
  readonly of: 'days' | 'week' | 'drums';
  /** Unique on its page. */
  readonly id: string;
  readonly cycle: ExpectedCycle;
  readonly sticking: string;
  readonly perBeat: number;
  /** What changed, or that nothing did for sure; what does not fit is left out from the end. */
  readonly said: readonly (ChangeStatement | StepStatement)[];
  readonly language?: Language;
}

/** A picture that stands alone: black on white, whatever is around it. */
export function thenNowPicture(then: ShownTake, now: ShownTake, options: ThenNowPictureOptions): string {
  const { shape, of, id, sticking, perBeat, said, language } = options;
  const at = SHOWN_PX[shape];
  const { tempoBpm } = now.measurement;
  const title = say({ code: 'picture-then-now-title', params: { sticking, tempoBpm, perBeat } }, language);
  const desc = say({ code: 'picture-then-now-desc', params: { thenDay: then.day, nowDay: now.day } }, language);
  const times = ringTimes([then.measurement, now.measurement], options.cycle);
  const rings = [then, now].map((take, k) => ringAt(take, { ...options, id: `${id}-${k}`, times }, at.rings[k]!));
  const captions = (
    [
      ['picture-then', then],
      ['picture-now', now],
    ] as const
  ).map(([code, { day }], k) => {
    const [x, y, widthPx] = at.rings[k]!;
    return textAt(say({ code, params: { of, day } }, language), {
      x: x + widthPx / 2,
      y: y - 14,
      'font-size': at.captionPx,
      'text-anchor': 'middle',
    });
  });
  return svg(
    { widthPx: at.widthPx, heightPx: at.heightPx, id, title, desc },
    element('rect', { width: at.widthPx, height: at.heightPx, fill: '#fff' }),
    element(
      'g',
      { fill: '#111', color: '#111' },
      titleAt(title, at),
      ...captions,
      ...rings,
      ...lines(said, at, language).flatMap((text, k) =>
        text === '' ? [] : textAt(text, { x: at.said[0], y: at.said[1] + k * at.saidPx * LINE, 'font-size': at.saidPx, class: 'picture-said' }),
      ),
    ),
  );
}

type Where = (typeof SHOWN_PX)[ShownShape];

/** Height of a line of text in letters. */
const LINE = 1.35;
/** Mean width of a letter in heights: a little more than most faces need. */
const LETTER = 0.54;
/** The same of a title, which is bold and mostly capitals. */
const TITLE_LETTER = 0.75;
/** A title is at least as large as what is said is in a picture half the size. Assumption. */
const LEAST_TITLE_PX = 20;

/** As large as it fits on its line; a phrase that would be too small to read is cut. */
function titleAt(title: string, { title: [x, y], titlePx, widthPx }: Where): string {
  const most = (widthPx - 2 * x) / TITLE_LETTER;
  const letters = Math.floor(most / LEAST_TITLE_PX);
  const shown = title.length > letters ? `${title.slice(0, letters - 1)}…` : title;
  return textAt(shown, { x, y, 'font-size': Math.min(titlePx, Math.floor(most / shown.length)), 'font-weight': 700 });
}

function ringAt(
  { measurement }: ShownTake,
  { id, cycle, sticking, perBeat, language, times }: ThenNowPictureOptions & { readonly times: number },
  [x, y, widthPx]: readonly [number, number, number],
): string {
  const ring = ringPicture(measurement, cycle, { widthPx: RING_MOST_PX, id, sticking, perBeat, times, ...(language ? { language } : {}) });
  return element('g', { transform: `translate(${x} ${y}) scale(${widthPx / RING_MOST_PX})` }, ring);
}

/** What is said, broken into lines, an empty one after each sentence; a sentence that does not fit as a whole is left out with all after it. */
function lines(said: readonly Statement[], at: Where, language: Language | undefined): readonly string[] {
  const most = Math.floor(at.said[2] / (at.saidPx * LETTER));
  const room = Math.floor(at.said[3] / (at.saidPx * LINE));
  const shown: string[] = [];
  for (const one of said as ThenNowPictureOptions['said']) {
    const broken = brokenAt(say(one, language), most);
    if (shown.length + broken.length > room) break;
    shown.push(...broken, '');
  }
  return shown;
}

/** When the frame moves on the music, against the audio clock: written down in the page, held against the clicks afterwards. */
import type { Page } from '@playwright/test';

/** What was seen of one session. Frames are those of its audio context. */
export interface Framed {
  readonly rateHz: number;
  /** Frames of the clicks that were sounded, in order. */
  readonly clicks: readonly number[];
  /** Of these, those that came too late to be sounded. */
  readonly unsounded: readonly number[];
  /** The frame that was leaving the loudspeaker, by the output's own time stamp, when the frame on the page changed. */
  readonly moves: readonly number[];
  /** For each move, the frame that was leaving when the picture before it was drawn. */
  readonly before: readonly number[];
}

declare global {
  interface Window {
    framed: { rateHz: number; clicks: number[]; unsounded: number[]; moves: number[]; before: number[] };
  }
}

/** From now on every page writes down when its frame moves. */
export async function watchFrames(page: Page): Promise<void> {
  await page.addInitScript(write);
}

export const framedIn = (page: Page): Promise<Framed> => page.evaluate(() => window.framed);

/** In the page. The reports of the click's worklet are true to the sample (machine/clickways). */
function write(): void {
  window.framed = { rateHz: 0, clicks: [], unsounded: [], moves: [], before: [] };
  let sounding: AudioContext | null = null;
  const { connect } = AudioNode.prototype as unknown as { connect: (this: AudioNode, ...given: unknown[]) => AudioNode };
  (AudioNode.prototype as unknown as { connect: typeof connect }).connect = function (...given) {
    if (this instanceof AudioWorkletNode && this.numberOfInputs === 0 && given[0] === this.context.destination) {
      sounding = this.context as AudioContext;
      window.framed.rateHz = sounding.sampleRate;
      this.port.addEventListener('message', ({ data }) => {
        for (const { frame, sounded } of data as { frame: number; sounded: boolean }[]) {
          window.framed.clicks.push(frame);
          if (!sounded) window.framed.unsounded.push(frame);
        }
      });
    }
    return connect.apply(this, given);
  };
  const leaving = () => {
    const { contextTime = 0, performanceTime = 0 } = sounding?.getOutputTimestamp() ?? {};
    return (contextTime + (performance.now() - performanceTime) / 1000) * window.framed.rateHz;
  };
  // Asked for before the page asks for its own, so that the latest of these is the picture that is being drawn.
  let [before, latest] = [0, 0];
  const picture = () => {
    [before, latest] = [latest, leaving()];
    requestAnimationFrame(picture);
  };
  requestAnimationFrame(picture);
  let shown = '';
  new MutationObserver(() => {
    const rect = document.querySelector('svg.frame rect');
    const now = rect ? `${rect.getAttribute('x')} ${rect.getAttribute('y')}` : '';
    if (now === shown) return;
    shown = now;
    if (now === '') return;
    window.framed.moves.push(leaving());
    window.framed.before.push(before);
  }).observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: ['x', 'y'] });
}

/** Frames of all strokes, from those of the clicks. */
function strokesOf({ clicks }: Framed, perBeat: number): readonly number[] {
  return clicks.flatMap((click, k) => {
    const gap = (clicks[k + 1] ?? Number.POSITIVE_INFINITY) - click;
    const before = click - (clicks[k - 1] ?? Number.NEGATIVE_INFINITY);
    const beat = Math.min(gap, before);
    return Array.from({ length: perBeat }, (_, part) => click + (part * beat) / perBeat);
  });
}

const nearest = (strokes: readonly number[], at: number): number =>
  strokes.reduce((best, one) => (Math.abs(at - one) < Math.abs(at - best) ? one : best), Number.POSITIVE_INFINITY);

/**
 * By how much each move came after its stroke, in ms; below zero before it. A move belongs to the nearest stroke.
 * @param perBeat strokes of a beat, each of which moves the frame.
 */
export function latenessMs(framed: Framed, perBeat: number): readonly number[] {
  const strokes = strokesOf(framed, perBeat);
  return framed.moves.map((move) => (1000 * (move - nearest(strokes, move))) / framed.rateHz);
}

/** Half a picture at 60 a second: so far the page's idea of what is leaving the loudspeaker may be off. Our choice. */
const HALF_PICTURE_MS = 8;

/**
 * Moves that came too late for the pictures that were drawn: the frame still stood on the stroke before when a picture was drawn more
 * than half a picture after its stroke. A busy machine drops pictures, and what is not drawn cannot be wrong. A move that comes with
 * the next picture, as 20 ms at 60 pictures a second ask for, is none of them.
 */
export function overdue(framed: Framed, perBeat: number): readonly number[] {
  const strokes = strokesOf(framed, perBeat);
  const slack = (HALF_PICTURE_MS / 1000) * framed.rateHz;
  return framed.moves.filter((move, k) => {
    const stroke = strokes.reduce((last, one) => (one <= move + slack && one > last ? one : last), Number.NEGATIVE_INFINITY);
    return framed.before[k]! - stroke > slack;
  });
}

/** When the frame moves on the music, against the audio clock: written down in the page, held against the clicks afterwards. */
import type { Page } from '@playwright/test';

/** What was seen of one session. Frames are those of its audio context. */
export interface Framed {
  readonly rateHz: number;
  /** Frames of the clicks that were sounded, in order. */
  readonly clicks: readonly number[];
  /** The frame that was leaving the loudspeaker, by the output's own time stamp, when the frame on the page changed. */
  readonly moves: readonly number[];
}

declare global {
  interface Window {
    framed: { rateHz: number; clicks: number[]; moves: number[] };
  }
}

/** From now on every page writes down when its frame moves. */
export async function watchFrames(page: Page): Promise<void> {
  await page.addInitScript(write);
}

export const framedIn = (page: Page): Promise<Framed> => page.evaluate(() => window.framed);

/** In the page. The reports of the click's worklet are true to the sample (machine/clickways). */
function write(): void {
  window.framed = { rateHz: 0, clicks: [], moves: [] };
  let sounding: AudioContext | null = null;
  const { connect } = AudioNode.prototype as unknown as { connect: (this: AudioNode, ...given: unknown[]) => AudioNode };
  (AudioNode.prototype as unknown as { connect: typeof connect }).connect = function (...given) {
    if (this instanceof AudioWorkletNode && this.numberOfInputs === 0 && given[0] === this.context.destination) {
      sounding = this.context as AudioContext;
      window.framed.rateHz = sounding.sampleRate;
      this.port.addEventListener('message', ({ data }) => window.framed.clicks.push(...(data as { frame: number }[]).map(({ frame }) => frame)));
    }
    return connect.apply(this, given);
  };
  let shown = '';
  new MutationObserver(() => {
    const rect = document.querySelector('svg.frame rect');
    const now = rect ? `${rect.getAttribute('x')} ${rect.getAttribute('y')}` : '';
    if (now === shown) return;
    shown = now;
    const { contextTime = 0, performanceTime = 0 } = sounding?.getOutputTimestamp() ?? {};
    if (now !== '') window.framed.moves.push((contextTime + (performance.now() - performanceTime) / 1000) * window.framed.rateHz);
  }).observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: ['x', 'y'] });
}

/**
 * By how much each move came after its stroke, in ms; below zero before it. A move belongs to the nearest stroke.
 * @param perBeat strokes of a beat, each of which moves the frame.
 */
export function latenessMs({ rateHz, clicks, moves }: Framed, perBeat: number): readonly number[] {
  const strokes = clicks.flatMap((click, k) => {
    const gap = (clicks[k + 1] ?? Number.POSITIVE_INFINITY) - click;
    const before = click - (clicks[k - 1] ?? Number.NEGATIVE_INFINITY);
    const beat = Math.min(gap, before);
    return Array.from({ length: perBeat }, (_, part) => click + (part * beat) / perBeat);
  });
  return moves.map((move) => {
    const off = strokes.map((stroke) => move - stroke);
    return (1000 * off.reduce((best, one) => (Math.abs(one) < Math.abs(best) ? one : best), Number.POSITIVE_INFINITY)) / rateHz;
  });
}

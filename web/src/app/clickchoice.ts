/** The ways a block can be clicked, as one chooses them before a session. */
import type { SessionBlock } from '@evenhand/core/session';

export type ClickChoice = 'beats' | 'eighths' | 'triplets' | 'swung' | 'offBeats' | 'twoAndFour' | 'one' | 'everySecondBar' | 'silentBars' | 'fewer';

/** What a choice is as properties of a block. */
export const CLICK_CHOICES: Readonly<Record<ClickChoice, Pick<SessionBlock, 'click' | 'fewerClicks'>>> = {
  beats: {},
  eighths: { click: { perBeat: 2 } },
  triplets: { click: { perBeat: 3 } },
  swung: { click: { perBeat: 2, swing: 2 / 3 } },
  offBeats: { click: { place: 'offBeats' } },
  twoAndFour: { click: { place: 'twoAndFour' } },
  one: { click: { place: 'one' } },
  everySecondBar: { click: { place: 'everySecondBar' } },
  silentBars: { click: { bars: { sounding: 2, silent: 2 } } },
  fewer: { fewerClicks: true },
};

/** In the order in which they are offered. */
export const CLICK_ORDER = Object.keys(CLICK_CHOICES) as readonly ClickChoice[];

/** The ways a block can be clicked, as one chooses them on a screen: its place, volume and sound, and swing and accents where they mean something. */
import type { ClickWay, SessionBlock } from '@evenhand/core/session';
import { CLICK_SOUNDS, type ClickSound } from '@evenhand/core/sound';

/** How a block is clicked, as it is kept. */
export type Clicking = Pick<SessionBlock, 'click' | 'fewerClicks'>;

export type ClickChoice = 'beats' | 'eighths' | 'triplets' | 'offBeats' | 'twoAndFour' | 'one' | 'everySecondBar' | 'silentBars' | 'fewer';
export type Swing = 'straight' | 'light' | 'triplet' | 'dotted';
export type Accents = 'one' | 'oneAndThree' | 'twoAndFour' | 'none';
export type ClickVolume = 'softer' | 'usual' | 'louder';
/** `asSet`: as the player's setting says. */
export type BlockSound = ClickSound | 'asSet';

/** What is chosen on a screen. */
export interface ClickParts {
  readonly way: ClickChoice;
  readonly swing: Swing;
  readonly accents: Accents;
  readonly volume: ClickVolume;
  readonly sound: BlockSound;
}

const WAYS: Readonly<Record<ClickChoice, Clicking>> = {
  beats: {},
  eighths: { click: { perBeat: 2 } },
  triplets: { click: { perBeat: 3 } },
  offBeats: { click: { place: 'offBeats' } },
  twoAndFour: { click: { place: 'twoAndFour' } },
  one: { click: { place: 'one' } },
  everySecondBar: { click: { place: 'everySecondBar' } },
  silentBars: { click: { bars: { sounding: 2, silent: 2 } } },
  fewer: { fewerClicks: true },
};

/** Share of a pair that its first takes. Arithmetic: two to one, three to one; a little swing is between. */
const SWINGS: Readonly<Record<Swing, number>> = { straight: 0.5, light: 0.6, triplet: 2 / 3, dotted: 0.75 };

const ACCENTS: Readonly<Record<Accents, readonly number[]>> = { one: [0], oneAndThree: [0, 2], twoAndFour: [1, 3], none: [] };

/** Assumption: twice and half as loud to most ears are 6 to 10 dB. */
const VOLUMES: Readonly<Record<ClickVolume, number>> = { softer: -6, usual: 0, louder: 6 };

/** In the order in which they are offered. */
export const CLICK_ORDER = Object.keys(WAYS) as readonly ClickChoice[];
export const SWING_ORDER = Object.keys(SWINGS) as readonly Swing[];
export const ACCENT_ORDER = Object.keys(ACCENTS) as readonly Accents[];
export const VOLUME_ORDER = Object.keys(VOLUMES) as readonly ClickVolume[];
export const SOUND_ORDER: readonly BlockSound[] = ['asSet', ...CLICK_SOUNDS];

/** How much louder than usual, dB. */
export const gainDbOf = ({ volume }: Pick<ClickParts, 'volume'>): number => VOLUMES[volume];

export const swings = ({ way }: ClickParts): boolean => way === 'eighths' || way === 'offBeats';
export const hasAccents = ({ way }: ClickParts): boolean => ['beats', 'eighths', 'triplets', 'silentBars', 'fewer'].includes(way);

/** What is chosen, as properties of a block. What means nothing for its way is left out. */
export function clickingOf(parts: ClickParts): Clicking {
  const { click: place = {}, fewerClicks } = WAYS[parts.way];
  const click: ClickWay = {
    ...place,
    ...(swings(parts) && parts.swing !== 'straight' ? { swing: SWINGS[parts.swing] } : {}),
    ...(hasAccents(parts) && parts.accents !== 'one' ? { accents: ACCENTS[parts.accents] } : {}),
    ...(parts.volume === 'usual' ? {} : { gainDb: VOLUMES[parts.volume] }),
    ...(parts.sound === 'asSet' ? {} : { sound: parts.sound }),
  };
  return { ...(Object.keys(click).length > 0 ? { click } : {}), ...(fewerClicks ? { fewerClicks } : {}) };
}

/** How something is clicked, of all that is said of it; nothing where every beat is, as usual. */
export const clickingIn = ({ click, fewerClicks }: Clicking = {}): Clicking => ({
  ...(click ? { click } : {}),
  ...(fewerClicks ? { fewerClicks } : {}),
});

/** Properties of a block as they are chosen; the nearest where they came from elsewhere. */
export function partsOf({ click = {}, fewerClicks = false }: Clicking): ClickParts {
  const { place = 'beats', perBeat = 1, bars, swing = 0.5, accents = [0], gainDb = 0, sound = 'asSet' } = click;
  const silent = (bars?.silent ?? 0) > 0;
  const finely = perBeat === 3 ? 'triplets' : perBeat > 1 ? 'eighths' : 'beats';
  const way = fewerClicks ? 'fewer' : silent ? 'silentBars' : place === 'beats' ? finely : place === 'none' ? 'everySecondBar' : place;
  return {
    way,
    swing: SWING_ORDER.reduce((near, one) => (Math.abs(SWINGS[one] - swing) < Math.abs(SWINGS[near] - swing) ? one : near)),
    accents: ACCENT_ORDER.find((one) => JSON.stringify(ACCENTS[one]) === JSON.stringify(accents)) ?? 'one',
    volume: gainDb < 0 ? 'softer' : gainDb > 0 ? 'louder' : 'usual',
    sound,
  };
}

/** What the player has set: read out of the diary, with what holds when nothing is said, and what follows from it. */
import { PAPERS, type PaperSize } from '@evenhand/adapters/paper-size';
import { CUT_OVER_HOUR, type SettingBody } from '@evenhand/core/diary';
import type { CountCountry, Exercise, Piece, ShelfOptions } from '@evenhand/core/exercise';
import { DEFAULT_DRUMS, plainName } from '@evenhand/core/kit';
import type { ClickSound } from '@evenhand/core/sound';
import type { Limb } from '@evenhand/core/sticking';
import type { Tolerance } from '@evenhand/core/tempo';
import type { NoteNames } from '@evenhand/core/words';
import type { TellBy } from './telling.ts';

export type Side = 'R' | 'L';

/** What there is to play on: a whole kit, a pad alone, a kit that is quiet, or drums of the player's own list. */
export type AtHand = 'kit' | 'quietKit' | 'pad' | 'own';

export interface Settings {
  readonly hand: Side;
  readonly foot: Side;
  /** The hand on the side of the hi-hat plays it, without crossing. */
  readonly openHanded: boolean;
  readonly atHand: AtHand;
  /** Drums of `own`, as typed, with commas between. */
  readonly ownDrums: string;
  readonly noteNames: NoteNames;
  readonly tolerance: Tolerance;
  /** What starts a session besides key, pedal and screen: nothing, four stick clicks, or four that give the tempo as well. */
  readonly startBy: 'touch' | 'go' | 'tempo';
  /** What tells in a rest which block comes next. */
  readonly tellBy: TellBy;
  /** What the click sounds like where a block does not say. */
  readonly clickSound: ClickSound;
  /** Whether a voice of this device counts in too. */
  readonly countIn: 'clicked' | 'spoken';
  /** Whether one counts aloud while playing: the syllables stand under the notes. */
  readonly countAloud: boolean;
  /** Whether the tempo of a block moves within it by what was heard, or only from block to block. */
  readonly tempoFollows: boolean;
  /** What is counted aloud, under the notes: nothing, or as a country counts. */
  readonly countRow: 'none' | CountCountry;
  /** Whether full, down, tap and up strokes stand under the notes. */
  readonly strokeTypes: boolean;
  /** Notes half as large again. */
  readonly largeType: boolean;
  /** What pages are printed on. */
  readonly paper: PaperSize;
  /** What a running session shows: notes where they can be large enough to be read from the drum stool, else letters; or one of these always. */
  readonly atStand: 'fitting' | 'notes' | 'letters';
  /** What is being rehearsed: its title ('' for nothing), a place in it, its tempo and bars, and whether a recording of it is on a device. */
  readonly pieceTitle: string;
  readonly piecePlace: string;
  readonly pieceTempoBpm: number;
  readonly pieceBars: number;
  readonly pieceRecorded: boolean;
  /** Hour at which a new practice day begins, 0 to 12. */
  readonly cutOverHour: number;
  /** Days away that need no word. */
  readonly daysAwayFine: number;
}

/** What can be told by choosing one of a few. */
export const CHOICES = {
  hand: ['R', 'L'],
  foot: ['R', 'L'],
  atHand: ['kit', 'quietKit', 'pad', 'own'],
  noteNames: ['american', 'british'],
  tolerance: ['wide', 'medium', 'narrow'],
  startBy: ['touch', 'go', 'tempo'],
  tellBy: ['nothing', 'tones', 'voice'],
  // By name, not as the sounds' own list: they come later than the settings.
  clickSound: ['tone', 'knock', 'low', 'bright', 'rustle'],
  countIn: ['clicked', 'spoken'],
  countRow: ['none', 'en', 'de'],
  paper: Object.keys(PAPERS) as PaperSize[],
  atStand: ['fitting', 'notes', 'letters'],
} as const satisfies { readonly [Name in keyof Settings]?: readonly Settings[Name][] };

/** What can be told by a whole number, and from where to where. */
export const RANGES = { cutOverHour: { least: 0, most: 12 }, daysAwayFine: { least: 1, most: 30 }, pieceBars: { least: 1, most: 16 } } as const;

/** @source [JobBrief] tolerance medium unless said; days away: three. */
export const DEFAULT_SETTINGS: Settings = {
  hand: 'R',
  foot: 'R',
  openHanded: false,
  atHand: 'kit',
  ownDrums: '',
  noteNames: 'american',
  tolerance: 'medium',
  startBy: 'touch',
  tellBy: 'tones',
  clickSound: 'tone',
  countIn: 'clicked',
  countAloud: false,
  tempoFollows: true,
  countRow: 'none',
  strokeTypes: false,
  largeType: false,
  paper: 'a4',
  atStand: 'fitting',
  pieceTitle: '',
  piecePlace: '',
  pieceTempoBpm: 0,
  pieceBars: 8,
  pieceRecorded: false,
  cutOverHour: CUT_OVER_HOUR,
  daysAwayFine: 3,
};

/** The settings of a diary; what is missing, of a later version or damaged is as if nothing had been said. */
export function settingsOf(saved: Readonly<Record<string, SettingBody['value']>>): Settings {
  const one = <Name extends keyof typeof CHOICES>(name: Name): Settings[Name] =>
    ((CHOICES[name] as readonly unknown[]).includes(saved[name]) ? saved[name] : DEFAULT_SETTINGS[name]) as Settings[Name];
  const whole = (name: keyof typeof RANGES): number => (isInRange(name, saved[name]) ? saved[name] : DEFAULT_SETTINGS[name]);
  const text = (name: 'ownDrums' | 'pieceTitle' | 'piecePlace'): string => (typeof saved[name] === 'string' ? saved[name] : '');
  return {
    hand: one('hand'),
    foot: one('foot'),
    openHanded: saved.openHanded === true,
    atHand: one('atHand'),
    ownDrums: text('ownDrums'),
    noteNames: one('noteNames'),
    tolerance: one('tolerance'),
    startBy: one('startBy'),
    tellBy: one('tellBy'),
    clickSound: one('clickSound'),
    countIn: one('countIn'),
    countAloud: saved.countAloud === true,
    tempoFollows: saved.tempoFollows !== false,
    countRow: one('countRow'),
    strokeTypes: saved.strokeTypes === true,
    largeType: saved.largeType === true,
    paper: one('paper'),
    atStand: one('atStand'),
    pieceTitle: text('pieceTitle'),
    piecePlace: text('piecePlace'),
    pieceTempoBpm: typeof saved.pieceTempoBpm === 'number' && saved.pieceTempoBpm > 0 ? saved.pieceTempoBpm : 0,
    pieceBars: whole('pieceBars'),
    pieceRecorded: saved.pieceRecorded === true,
    cutOverHour: whole('cutOverHour'),
    daysAwayFine: whole('daysAwayFine'),
  };
}

/** Whether a value is a whole number that a setting takes. */
export const isInRange = (name: keyof typeof RANGES, value: unknown): value is number =>
  Number.isInteger(value) && (value as number) >= RANGES[name].least && (value as number) <= RANGES[name].most;

/** The drums of the player's own list, as drums are told apart by; empty unless the list is chosen. */
const ownDrumsOf = ({ atHand, ownDrums }: Settings): readonly string[] =>
  atHand === 'own'
    ? ownDrums
        .split(',')
        .map(plainName)
        .filter((name) => name !== '')
    : [];

/** Drums that are worked with the foot. */
const FEET_DRUMS: readonly string[] = [DEFAULT_DRUMS.K, DEFAULT_DRUMS.H];

/** The drum each limb plays in a new phrase. */
export function firstDrums(settings: Settings): Readonly<Record<Limb, string>> {
  if (settings.atHand === 'pad') return { ...DEFAULT_DRUMS, R: 'pad', L: 'pad' };
  const own = ownDrumsOf(settings);
  const forHands = own.filter((name) => !FEET_DRUMS.includes(name));
  const hand = own.includes(DEFAULT_DRUMS.R) ? DEFAULT_DRUMS.R : (forHands[0] ?? DEFAULT_DRUMS.R);
  return { ...DEFAULT_DRUMS, R: hand, L: hand };
}

/** Which hand is on the hi-hat: the one across it, on the side of the kick, unless the player plays open-handed. */
export const hatHand = ({ foot, openHanded }: Pick<Settings, 'foot' | 'openHanded'>): Side => (openHanded === (foot === 'L') ? 'R' : 'L');

/** What the shelf is told: the drums at hand, those of the phrase always among them, none where any will do; the hand on the cymbal, and which way round the kit stands. */
export function shelfOptions(settings: Settings, phraseDrums: readonly string[]): ShelfOptions {
  const atHand = settings.atHand === 'pad' ? ['pad'] : ownDrumsOf(settings);
  const drums = atHand.length > 0 ? { drums: [...new Set([...atHand, ...phraseDrums])] } : {};
  const piece = pieceOf(settings);
  return { ...drums, cymbalHand: hatHand(settings), kitSide: settings.foot, ...(piece ? { piece } : {}) };
}

/** What is being rehearsed; null where nothing was told. */
function pieceOf({ pieceTitle, piecePlace, pieceTempoBpm, pieceBars, pieceRecorded }: Settings): Piece | null {
  if (pieceTitle === '' || pieceTempoBpm <= 0) return null;
  return { title: pieceTitle, place: piecePlace, tempoBpm: pieceTempoBpm, bars: pieceBars, recorded: pieceRecorded };
}

/**
 * Exercises in the order of the shelf, but where both forms of a rudiment are on it, the one led by the player's leading hand comes first.
 * @param exercises those of rudiments name their leading hand in the title's `lead`.
 */
export function handFirst<One extends Pick<Exercise, 'title'>>(exercises: readonly One[], hand: Side): readonly One[] {
  const led = exercises.filter(({ title }) => title.code === 'title-rudiment');
  const leads = ({ title }: One): number => Number((title.params as { readonly lead?: unknown }).lead === hand);
  const inOrder = [...led].sort((a, b) => leads(b) - leads(a));
  return exercises.map((one) => (led.includes(one) ? inOrder[led.indexOf(one)]! : one));
}

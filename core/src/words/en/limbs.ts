/** Limbs as a drummer calls them. */
import type { Limb } from '../../sticking/index.ts';

/** Of a stroke, where there is little room or “hand” goes without saying: the left, the kick. */
export const limbNouns: Readonly<Record<Limb, string>> = { R: 'right', L: 'left', K: 'kick', H: 'hi-hat foot' };

/** Of the limb itself. */
export const limbNames: Readonly<Record<Limb, string>> = { R: 'right hand', L: 'left hand', K: 'kick foot', H: 'hi-hat foot' };

/** The noun for what may be no limb: then nothing. */
export const limbNoun = (limb: string): string | undefined => limbNouns[limb as Limb];

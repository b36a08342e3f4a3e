/** Limbs as a drummer calls them. */
import type { Limb } from '@evenhand/core/sticking';

export const limbNames: Readonly<Record<Limb, string>> = { R: 'right hand', L: 'left hand', K: 'bass drum', H: 'other foot' };

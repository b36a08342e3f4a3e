/** The names of the click's voices and sounds, apart from the sounds themselves, which are needed later. */

/** What a click marks: the 1 of a bar, another beat, or a part of a beat. */
export type ClickKind = 'bar' | 'beat' | 'subdivision';

/** What a click sounds like, all equally loud: a soft tone, a wooden knock, a low tick, a bright ring, a short rustle without a pitch. */
export type ClickSound = 'tone' | 'knock' | 'low' | 'bright' | 'rustle';

/** In the order in which they are offered. */
export const CLICK_SOUNDS: readonly ClickSound[] = ['tone', 'knock', 'low', 'bright', 'rustle'];

/** The one that sounds unless another was chosen, and the only one that older takes know. */
export const USUAL_CLICK: ClickSound = 'tone';

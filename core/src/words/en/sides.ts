/** What the earlier and the later of two takes are called, by what parts them. */
import type { Between } from '../compared.ts';

const EARLIER: Readonly<Record<Between, string>> = { days: 'then', week: 'a week before', drums: 'on the pad' };
const LATER: Readonly<Record<Between, string>> = { days: 'now', week: 'this week', drums: 'on the kit' };

export const sideName = (of: Between, side: 'then' | 'now'): string => (side === 'then' ? EARLIER : LATER)[of];

/** Things counted in a sentence. */

/** `1 note`, `12 notes`, and so on. */
export const countOf = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;
/** `1 entry`, `12 entries`. */
export const entryCountOf = (count: number): string => countOf(count, 'entry', 'entries');
/** `no takes`, `1 take`, `12 takes`. */
export const takeCountOf = (count: number): string => (count === 0 ? 'no takes' : countOf(count, 'take'));

/** Things counted in a label. */

/** `counted(1, 'session')` is "1 session", `counted(3, 'session')` "3 sessions". @param many where it is not the one with an s. */
export const counted = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

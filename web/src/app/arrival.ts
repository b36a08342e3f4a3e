/** Reading goes on where a new part of a screen begins: its heading takes the focus. */

/** For `{@attach}` on a heading that appears without a change of screen. */
export const readFromHere = (heading: HTMLElement): void => heading.focus({ preventScroll: true });

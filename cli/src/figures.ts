/** Numbers as they leave: rounded so that JSON does not promise more than was measured. */

const rounded = (digits: number) => {
  const factor = 10 ** digits;
  return <Value extends number | null>(value: Value): Value => (value === null ? value : ((Math.round(value * factor) / factor) as Value));
};

/** Seconds to a millionth: a frame at 192 kHz is five of them. */
export const sec = rounded(6);
/** Milliseconds to a thousandth. */
export const ms = rounded(3);
/** Decibels to a hundredth. */
export const db = rounded(2);
/** Beats per minute, shares and confidences to a thousandth. */
export const share = rounded(3);

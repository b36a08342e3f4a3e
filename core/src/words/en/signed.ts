/** A whole number with its sign. */

/** `signed(-4.2)` is "−4", `signed(0.3)` is "0". */
export const signed = (value: number): string => {
  const whole = Math.round(value);
  return whole === 0 ? '0' : `${whole < 0 ? '−' : '+'}${Math.abs(whole)}`;
};

/** When something was that is only known by its day. */

/** Noon of a civil day where this device is, ms since 1970. */
export const noonOf = (day: string): number => new Date(`${day}T12:00:00`).getTime();

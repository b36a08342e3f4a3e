/** How large what is read from the drum stool must be: visual angles as CSS pixels, by what kind of screen it is. */

/** From the eye to the screen on its stand. @source [JobBrief] a metre or two away: the farther of the two. */
const STAND_MM = 2000;

/** Heights of capital letters and figures, as minutes of arc: of what is played by, the least height for reading; of what is only glanced at, twice the letter that a sharp eye just tells apart. */
const READ_ARC_MIN = 16; // @source [ISO9241]
const GLANCE_ARC_MIN = 10; // @source [ISO8596] 5′ is visual acuity 1.0; 10′ is read with 0.5

/**
 * Millimetres of a CSS pixel. Assumptions: phones of 360 to 412 pixels are 58 to 69 mm across, so 0.16; tablets of 264 dots an inch at two
 * dots a pixel and laptops of 1440 pixels on 286 mm and more, 0.19.
 */
const PHONE_MM = 0.16;
const LARGER_MM = 0.19;

/** A screen whose shorter side is below this is a phone's, CSS pixels. Assumption: the smallest tablets have 600. */
const PHONE_BELOW_PX = 600;

/** How tall a capital letter is in ems. Assumption: 0.71 to 0.73 in the sans serif fonts that systems have. */
export const CAP_EM = 0.7;

/** Size of the font whose capitals are that tall. */
export const fontPx = (capPx: number): number => capPx / CAP_EM;

/** How tall a capital is in the fonts of page.css, figures with it. Assumption: 0.65 to 0.7. */
export const SERIF_CAP_EM = 0.65;

export interface StandSize {
  /** Whether notation would be too small: letters are shown instead. */
  readonly phone: boolean;
  readonly mmPerPx: number;
  /** Least height of capitals and figures that are played by, and of those glanced at, CSS pixels. */
  readonly readPx: number;
  readonly glancePx: number;
}

/** What a screen of this size must show. @param screen CSS pixels. */
export function standSize({ widthPx, heightPx }: { readonly widthPx: number; readonly heightPx: number }): StandSize {
  const phone = Math.min(widthPx, heightPx) < PHONE_BELOW_PX;
  const mmPerPx = phone ? PHONE_MM : LARGER_MM;
  return { phone, mmPerPx, readPx: pxOfArcMin(READ_ARC_MIN, mmPerPx), glancePx: pxOfArcMin(GLANCE_ARC_MIN, mmPerPx) };
}

const RAD_PER_ARC_MIN = Math.PI / (180 * 60);

const pxOfArcMin = (arcMin: number, mmPerPx: number): number => (STAND_MM * Math.tan(arcMin * RAD_PER_ARC_MIN)) / mmPerPx;

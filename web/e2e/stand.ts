/** What a drummer two metres away can read of a running session: heights as visual angles and contrast of the frame. */
import type { Page } from '@playwright/test';

interface Size {
  readonly name: string;
  readonly width: number;
  readonly height: number;
}

/** From the eye to the screen: "a metre or two" (JOB.md), the farther. */
const DISTANCE_MM = 2000;

/** A CSS pixel of a phone with 3 dots a pixel at 460 an inch is 0.166 mm, of one with 412 across 66 mm 0.160; of a tablet with 2 at 264 an inch 0.192. The smaller of each kind. */
const mmOf = ({ width, height }: Size): number => (Math.min(width, height) < 600 ? 0.16 : 0.19);

/** Minutes of arc of a capital or figure. ISO 9241-303: 16 at least, for what is played by. ISO 8596: 5 is acuity 1.0, so 10 is read by half of it, for what is glanced at. */
const LEAST = { letters: 16, tempo: 16, bars: 16, 'note value': 10, 'time left': 10, drums: 10 } as const;
/** Names of drums stand only where the letters do not say it all, and beside notes the staff says it. */
const NOT_ALWAYS = ['drums'];

/** Rounding of sizes to hundredths of a pixel and of glyphs to theirs. */
const SLACK = 0.1;

/** What is too small at a size of the window, and a frame that is too faint. */
export async function standFaults(page: Page, size: Size): Promise<readonly string[]> {
  await page.setViewportSize(size);
  // Another size is drawn anew; two pictures later it stands.
  await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
  await page.locator('.letter text, g.letters text').first().waitFor();
  const heights = await page.evaluate(measured);
  const small = Object.entries(LEAST).flatMap(([what, least]) => {
    const px = heights.px[what];
    if (px === undefined) return NOT_ALWAYS.includes(what) ? [] : [`${size.name}: no ${what} on the stand`];
    const arcMin = arcMinOf(px, size);
    return arcMin < least - SLACK ? [`${size.name}: ${what} ${arcMin.toFixed(1)}′ of ${least}′`] : [];
  });
  const faint = heights.contrast < 3 ? [`${size.name}: frame ${heights.contrast.toFixed(1)} to 1`] : [];
  return [...small, ...faint, ...heights.cut.map((what) => `${size.name}: “${what}” is cut off`)];
}

/** The same of what was heard, told in a rest in a word or two; and whether all of it is on the screen. */
export async function glanceFaults(page: Page, size: Size): Promise<readonly string[]> {
  await page.setViewportSize(size);
  await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
  const { px, text, cut } = await page.evaluate(() => {
    const glance = document.querySelector('.glance')!;
    const pen = document.createElement('canvas').getContext('2d')!;
    const { fontWeight, fontSize, fontFamily } = getComputedStyle(glance);
    pen.font = `${fontWeight} ${fontSize} ${fontFamily}`;
    const [inside, around] = [glance.getBoundingClientRect(), glance.parentElement!.getBoundingClientRect()];
    const cut = inside.bottom > around.bottom + 1 || inside.right > innerWidth || glance.scrollWidth > glance.clientWidth;
    return { px: pen.measureText('H').actualBoundingBoxAscent, text: glance.textContent, cut };
  });
  const arcMin = arcMinOf(px, size);
  const small = arcMin < LEAST.letters - SLACK ? [`${size.name}: “${text}” ${arcMin.toFixed(1)}′ of ${LEAST.letters}′`] : [];
  return cut ? [...small, `${size.name}: “${text}” is cut off`] : small;
}

const arcMinOf = (px: number, size: Size): number => (Math.atan((px * mmOf(size)) / DISTANCE_MM) * 180 * 60) / Math.PI;

/** In the page: least heights of capitals and figures as they are painted, the frame against its sheet by WCAG's relative luminance, and what of the line above the music is not on the screen. */
function measured(): { px: Record<string, number>; contrast: number; cut: string[] } {
  const pen = document.createElement('canvas').getContext('2d')!;
  const ofText = (element: Element): number => {
    const { fontWeight, fontSize, fontFamily } = getComputedStyle(element);
    pen.font = `${fontWeight} ${fontSize} ${fontFamily}`;
    const scale = element instanceof SVGGraphicsElement ? element.getScreenCTM()!.a : 1;
    return pen.measureText(/\d/.test(element.textContent!) ? '1' : 'R').actualBoundingBoxAscent * scale;
  };
  const least = (selector: string) => Math.min(...[...document.querySelectorAll(selector)].map(ofText));
  const letters = [...document.querySelectorAll('.letter > text:not(.grace, .under), g.letters > g > text')].map(ofText);
  const found = {
    letters: Math.min(...letters),
    tempo: least('.bpm'),
    bars: least('.bar b'),
    'note value': least('.value'),
    'time left': least('.time'),
    drums: least('.drum:not(:empty), .letter > .under'),
  };
  const luminance = (css: string) => {
    const [r, g, b] = /(\d+), (\d+), (\d+)/
      .exec(css)!
      .slice(1)
      .map((part) => Number(part) / 255)
      .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4)) as [number, number, number];
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const frame = document.querySelector('svg.frame rect');
  const sheet = getComputedStyle(document.querySelector('.music')!).backgroundColor;
  const pair = frame ? [luminance(getComputedStyle(frame).stroke), luminance(sheet)].sort((a, b) => b - a) : [0, 0];
  const px = Object.fromEntries(Object.entries(found).filter(([, height]) => Number.isFinite(height)));
  const cut = [...document.querySelectorAll('.value, .bpm, .time, .blocks, .what, .bar b')]
    .filter((element) => element.getBoundingClientRect().right > innerWidth)
    .map((element) => element.textContent!);
  return { px, contrast: (pair[0]! + 0.05) / (pair[1]! + 0.05), cut };
}

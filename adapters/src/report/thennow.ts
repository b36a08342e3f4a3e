/** Then and now as something to send or show: one page (HTML, PDF), a picture, a sound; the app and the command line make the same. */
import { type ExpectedCycle, expectedCycle } from '@evenhand/core/exercise';
import { spacesMs } from '@evenhand/core/finding';
import { escaped } from '@evenhand/core/markup';
import { ringPicture, ringTimes, type ShownShape, thenNowPicture } from '@evenhand/core/picture';
import type { ChangeStatement, Compared, PlaceCompared, TakesCompared, ThenNowSound } from '@evenhand/core/progress';
import { writeWav } from '@evenhand/core/take';
import { type Language, type ReportStatement, say, type ThenNowStatement } from '@evenhand/core/words';
import { base64Of } from '../base64.ts';
import type { PrintedAs, ThenNowSheet } from '../paper/index.ts';
import { comes } from './comes.ts';
import { withInfo } from './wavinfo.ts';

const RING_PX = 440;

/** The picture to show, as SVG text: black on white, of a fixed size. */
export function thenNowSvg(compared: TakesCompared, shape: ShownShape, language: Language = 'en'): string {
  const { of, blocks, measured, thenDay, nowDay, told, volumes } = compared;
  const { exercise } = blocks[1].body;
  return thenNowPicture(
    { day: thenDay, measurement: measured[0] },
    { day: nowDay, measurement: measured[1] },
    {
      shape,
      of,
      id: `then-now-${shape}`,
      cycle: expectedCycle(exercise),
      sticking: exercise.sticking,
      perBeat: exercise.perBeat,
      said: [...told.said, ...volumes.said],
      language,
    },
  );
}

/** Both takes as a sound file (WAV, 16 bits, two channels); what is to be known of them, such as another set-up, stands in it as words. */
export function thenNowWav({ left, right, sampleRateHz, speed }: ThenNowSound, compared: TakesCompared, language: Language = 'en'): Uint8Array {
  const samples = new Float32Array(2 * left.length);
  for (let i = 0; i < left.length; i++) {
    samples[2 * i] = left[i]!;
    samples[2 * i + 1] = right[i]!;
  }
  const wav = writeWav(samples, sampleRateHz, { bits: 16, channelCount: 2 });
  const { title, name, sides, caveats, setup } = headOf(compared, (statement) => say(statement, language));
  const slowed = slowedLines(speed, language);
  return withInfo(wav, { title: `${title}: ${name}`, comment: [`${sides.join(' / ')}.`, ...slowed, ...caveats, ...setup].join(' ') });
}

/** Whether the two takes were made with different things, as far as the diary says. */
export const setupDiffers = ({ told }: TakesCompared): boolean => told.said.some(({ code }) => code === 'progress-setup-differs');

const CAVEATS: readonly string[] = ['progress-setup-differs', 'progress-tempo-differs'];

/** What stands over everything that is made of two takes. */
function headOf(compared: TakesCompared, said: Say) {
  const { of, thenDay, nowDay, tempoBpm, perBeat, blocks, told } = compared;
  const side = (which: 'then' | 'now') => said({ code: 'then-now-side', params: { of, side: which, day: which === 'then' ? thenDay : nowDay } });
  return {
    title: said({ code: 'report-title', params: { sticking: blocks[1].body.exercise.sticking, tempoBpm, perBeat } }),
    name: said({ code: 'then-now-title', params: { of } }),
    sides: [side('then'), side('now')] as const,
    caveats: told.said.filter(({ code }) => CAVEATS.includes(code)).map((one) => said(one)),
    setup: setupLines(compared, said),
  };
}

/** That it was slowed, where it was. */
const slowedLines = (speed: number, language: Language): readonly string[] =>
  speed === 1 ? [] : [say({ code: 'then-now-slowed', params: { share: speed } }, language)];

/** One page as PDF. Loads what it draws with when first asked. */
export async function thenNowPdf(compared: TakesCompared, printed: PrintedAs): Promise<Uint8Array> {
  const { thenNowPaper } = await import('../paper/index.ts');
  return thenNowPaper(thenNowSheet(compared, printed.language), printed);
}

/** The page in words; every text is ready to be read. */
export function thenNowSheet(compared: TakesCompared, language: Language = 'en'): ThenNowSheet {
  const { blocks, measured, told, volumes, perBeat } = compared;
  const said: Say = (statement) => say(statement, language);
  const head = headOf(compared, said);
  const { exercise } = blocks[1].body;
  const cycle = expectedCycle(exercise);
  const times = ringTimes(measured, cycle);
  const ring = (k: 0 | 1) => ({
    caption: head.sides[k],
    svg: ringPicture(measured[k], cycle, { widthPx: RING_PX, id: `then-now-${k}`, times, sticking: exercise.sticking, perBeat, language }),
  });
  const rows = told.places.map((place) => ({ sure: isSure(place), cells: cellsOf(place, { cycle, measured, said }) }));
  return {
    title: head.title,
    name: head.name,
    rings: [ring(0), ring(1)],
    setup: head.setup,
    changed: {
      heading: said({ code: 'then-now-heading', params: { of: 'changed' } }),
      lines: [...told.said, ...volumes.said, ...told.rest].map((one) => say(one, language)),
    },
    strokes: {
      heading: said({ code: 'then-now-heading', params: { of: 'strokes' } }),
      columns: COLUMNS.map(([column, side]) => said({ code: 'then-now-column', params: { of: column, between: compared.of, side } })),
      rows,
      note: said({ code: 'then-now-range', params: {} }),
      rest: (count) => said({ code: 'then-now-rest', params: { count } }),
    },
  };
}

const COLUMNS = [
  ['stroke', ''],
  ['comes', 'then'],
  ['comes', 'now'],
  ['by', ''],
  ['varies', 'then'],
  ['varies', 'now'],
] as const;

type Say = (statement: ThenNowStatement | ReportStatement | ChangeStatement) => string;

const isSure = ({ biasMs, spreadMs, volumeDb }: PlaceCompared): boolean => biasMs.sure || spreadMs.sure || volumeDb.sure;

interface Around {
  readonly cycle: ExpectedCycle;
  readonly measured: TakesCompared['measured'];
  readonly said: Say;
}

function cellsOf({ index, limb, biasMs, spreadMs }: PlaceCompared, { cycle, measured, said }: Around): readonly string[] {
  const at = (k: 0 | 1) => {
    const { value = null, low = null, high = null } = (k === 0 ? biasMs.before : biasMs.after) ?? {};
    return said(comes({ biasMs: value, lowMs: low, highMs: high }, spacesMs(measured[k], cycle)[index]!));
  };
  const { change, sure } = biasMs;
  const by = change ? said({ code: 'then-now-by', params: { value: change.value, low: change.low, high: change.high, sure } }) : NONE;
  return [`${index + 1} ${limb}`, at(0), at(1), by, ...variesOf(spreadMs, said)];
}

const NONE = '–';

function variesOf({ before, after, change, sure }: Compared, said: Say): readonly [string, string] {
  const way = !sure || !change ? '' : change.value < 1 ? 'steadier' : 'less';
  const varies = (figure: Compared['before'], told: '' | 'steadier' | 'less') =>
    figure ? said({ code: 'then-now-varies', params: { value: figure.value, low: figure.low, high: figure.high, change: told } }) : NONE;
  return [varies(before, ''), varies(after, way)];
}

/** What was different in the set-up, part by part, as the player wrote it. */
function setupLines({ of, setups: [was, is] }: TakesCompared, said: Say): readonly string[] {
  const names = [...new Set([...Object.keys(was), ...Object.keys(is)])].filter((name) => was[name] !== is[name]).sort();
  return names.map((name) => said({ code: 'then-now-setup', params: { of, name, was: was[name] ?? '', is: is[name] ?? '' } }));
}

const STYLE = `body{font:1.05rem/1.5 Georgia,serif;max-width:58rem;margin:2rem auto;padding:0 1rem;color:#221c14;background:#fff;overflow-wrap:anywhere}
h1{margin-bottom:.2rem}h1+p{margin-top:0;color:#5c5141}.rings{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(20rem,100%),1fr));gap:1rem;margin:1rem 0}
figure{margin:0;break-inside:avoid}figcaption{font-weight:700;text-align:center}svg{display:block;max-width:100%;height:auto;margin:auto}audio{width:100%}
.wide{overflow-x:auto}table{border-collapse:collapse;min-width:44rem;font-size:.95rem}th,td{text-align:left;padding:.2rem .9rem .2rem 0;vertical-align:top;overflow-wrap:normal;border-top:1px solid #d9cfbd}.note{color:#5c5141;font-size:.95rem}
@media (max-width:44rem){body{margin:1rem auto}}
@media print{.hear{display:none}body{margin:0;max-width:none;font-size:10pt}.rings{grid-template-columns:1fr 1fr}table{min-width:0;font-size:9pt}svg{width:7cm}}`;

/** One page that stands alone: to read, to print, to send. @param sound laid into the page where it is given. */
export function thenNowHtml(
  compared: TakesCompared,
  { sound, language = 'en' }: { readonly sound: ThenNowSound | null; readonly language?: Language },
): string {
  const { title, name, rings, setup, changed, strokes } = thenNowSheet(compared, language);
  const paragraph = (text: string) => `<p>${escaped(text)}</p>`;
  return [
    `<!doctype html><html lang="${language}"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>${escaped(`${name}: ${title}`)}</title><style>${STYLE}</style></head><body><main>`,
    `<h1>${escaped(title)}</h1>`,
    paragraph(name),
    `<div class="rings">${rings.map(({ caption, svg }) => `<figure><figcaption>${escaped(caption)}</figcaption>${svg}</figure>`).join('')}</div>`,
    `<h2>${escaped(changed.heading)}</h2>`,
    ...[...changed.lines, ...setup].map(paragraph),
    sound ? hearOf(sound, compared, language) : '',
    `<h2 id="strokes">${escaped(strokes.heading)}</h2>`,
    tableOf(strokes),
    `<p class="note">${escaped(strokes.note)}</p></main></body></html>`,
    '',
  ].join('\n');
}

function hearOf(sound: ThenNowSound, compared: TakesCompared, language: Language): string {
  const heading = say({ code: 'then-now-heading', params: { of: 'hear' } }, language);
  const what = say({ code: 'then-now-sound', params: { cycles: sound.alongside.cycleCount, as: sound.as } }, language);
  const lines = [what, ...slowedLines(sound.speed, language)].map((text) => `<p>${escaped(text)}</p>`).join('');
  const address = `data:audio/wav;base64,${base64Of(thenNowWav(sound, compared, language))}`;
  return `<section class="hear"><h2>${escaped(heading)}</h2>${lines}<audio controls src="${address}"></audio></section>`;
}

/** A table wider than a phone is scrolled, by keyboard too. */
function tableOf({ columns, rows }: ThenNowSheet['strokes']): string {
  const head = columns.map((cell) => `<th scope="col">${escaped(cell)}</th>`).join('');
  const body = rows.map(
    ({ cells }) => `<tr>${cells.map((cell, k) => (k === 0 ? `<th scope="row">${escaped(cell)}</th>` : `<td>${escaped(cell)}</td>`)).join('')}</tr>`,
  );
  return `<div class="wide" role="region" aria-labelledby="strokes" tabindex="0"><table><thead><tr>${head}</tr></thead><tbody>${body.join('')}</tbody></table></div>`;
}

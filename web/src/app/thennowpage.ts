/** Then and now as one page that stands alone: to read, to print, to send. */
import { escaped } from '@evenhand/core/markup';
import type { Figure } from '@evenhand/core/progress';
import type { Compared } from './comparing.ts';
import { signed } from './figures.ts';
import { thenNowLabels as words } from './labelsthennow.ts';
import { say } from './said.ts';

const STYLE = `body{font:1.05rem/1.5 Georgia,serif;max-width:60rem;margin:2rem auto;padding:0 1rem;color:#221c14;background:#fff}
svg{max-width:100%;height:auto}audio{width:100%}table{border-collapse:collapse}th,td{text-align:left;padding:.15rem .9rem .15rem 0;vertical-align:top}
@media print{audio{display:none}body{margin:0}}`;

/** @param clip WAV, laid into the page. */
export function pageOf(compared: Compared, { picture, clip }: { readonly picture: string; readonly clip: Uint8Array | null }): string {
  const said = [...compared.told.said, ...compared.volumes.said].map((one) => `<p>${escaped(say(one))}</p>`);
  return [
    `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>${words.pageTitle}</title><style>${STYLE}</style></head><body>`,
    picture,
    ...said,
    clip ? `<p><audio controls src="data:audio/wav;base64,${base64(clip)}"></audio></p>` : '',
    tableOf(compared),
    `<p>${words.range}</p></body></html>`,
    '',
  ].join('\n');
}

function tableOf({ told }: Compared): string {
  const heads = [words.stroke, `${words.time}: ${words.atThen}`, words.atNow, `${words.spread}: ${words.atThen}`, words.atNow];
  const rows = told.places.map(({ index, limb, biasMs, spreadMs }) => [
    `${limb} ${index + 1}`,
    figure(biasMs.before, signed),
    figure(biasMs.after, signed) + sure(biasMs),
    figure(spreadMs.before, whole),
    figure(spreadMs.after, whole) + sure(spreadMs),
  ]);
  const row = (cells: readonly string[], of: 'th' | 'td') => `<tr>${cells.map((cell) => `<${of}>${escaped(cell)}</${of}>`).join('')}</tr>`;
  return `<table>${row(heads, 'th')}${rows.map((cells) => row(cells, 'td')).join('')}</table>`;
}

const whole = (value: number): string => value.toFixed(0);
const sure = ({ sure: told }: { readonly sure: boolean }): string => (told ? `, ${words.changed}` : '');
const figure = (of: Figure | null, shown: (value: number) => string): string =>
  of ? `${shown(of.value)} (${shown(of.low)} … ${shown(of.high)})` : '–';

/** Bytes as text, a stretch at a time: a call takes only so many arguments. */
function base64(bytes: Uint8Array): string {
  const parts: string[] = [];
  for (let at = 0; at < bytes.length; at += 32_766) parts.push(String.fromCharCode(...bytes.subarray(at, at + 32_766)));
  return btoa(parts.join(''));
}

/** Then and now out of a diary: what was planted is what is told, on paper, in a picture and to the ear. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { inflateSync } from 'node:zlib';
import { loudnessLkfs } from '@evenhand/core/signal';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readCall } from '../src/arguments.ts';
import { report as reportVerb } from '../src/verbs/report.ts';
import { evenhandJson, folder } from './evenhand.ts';
import { type TwoTakes, twoTakes } from './two-takes.ts';

const PLANTED: TwoTakes = {
  ...{ sticking: 'RLRLKK', perBeat: 4, tempoBpm: 126, cycles: 8 },
  thenFaults: [{ index: 5, earlyMs: 24, softDb: 6 }],
  nowFaults: [],
  setups: [
    { sticks: 'thin', drums: 'pad', pedal: '', heel: 'down', phonePlace: '' },
    { sticks: 'thin', drums: 'pad', pedal: 'the new <one> & its felt beater, borrowed from the theatre', heel: 'up', phonePlace: '' },
  ],
};
const home = mkdtempSync(join(tmpdir(), 'evenhand-'));
beforeAll(() => twoTakes(home, PLANTED), 60_000);
afterAll(() => rmSync(home, { recursive: true }));

/** A call within this process: a start of the program each time would take longer than all the rest. */
async function called(...given: string[]) {
  const { call, problems } = readCall(reportVerb, given);
  expect(problems).toEqual([]);
  const { exit, json } = await reportVerb.run(call);
  // biome-ignore lint/suspicious/noExplicitAny: what the JSON holds is what these tests find out
  return { exit, json: JSON.parse(JSON.stringify(json)) as any };
}

const hasPoppler = spawnSync('pdftotext', ['-v']).error === undefined;
if (!hasPoppler) console.log('Pages read back by poppler skipped: poppler-utils is not installed');

const report = async (end: string, ...more: string[]) => {
  const file = join(folder(), `then-now${end}`);
  return { file, ...(await called(home, '--then-now', '-o', file, ...more)) };
};

/** Red of any pixel of a PNG of 8 bits, read by the steps of its standard: the parts joined, inflated, and each row told from the one above. */
function lightOf(png: Buffer): (x: number, y: number) => number {
  const parts: Buffer[] = [];
  for (let at = 8; at < png.length; at += 12 + png.readUInt32BE(at))
    if (png.toString('latin1', at + 4, at + 8) === 'IDAT') parts.push(png.subarray(at + 8, at + 8 + png.readUInt32BE(at)));
  const [width, channels] = [png.readUInt32BE(16), png[25] === 6 ? 4 : 3];
  const [raw, stride] = [inflateSync(Buffer.concat(parts)), width * channels];
  const rows: Uint8Array[] = [];
  for (let y = 0; (stride + 1) * y < raw.length; y++) {
    const [filter, row, above] = [raw[y * (stride + 1)]!, new Uint8Array(stride), rows[y - 1] ?? new Uint8Array(stride)];
    for (let i = 0; i < stride; i++) {
      const [left, up, corner] = [row[i - channels] ?? 0, above[i]!, above[i - channels] ?? 0];
      const guess = left + up - corner;
      const [a, b, c] = [left, up, corner].map((one) => Math.abs(guess - one)) as [number, number, number];
      const paeth = a <= b && a <= c ? left : b <= c ? up : corner;
      row[i] = raw[y * (stride + 1) + 1 + i]! + [0, left, up, (left + up) >> 1, paeth][filter]!;
    }
    rows.push(row);
  }
  return (x, y) => rows[y]![x * channels]!;
}

/** Samples of a WAV of 16 bits, channel by channel. */
function channelsOf(bytes: Buffer): readonly [Float32Array, Float32Array] {
  const of = (channel: number) =>
    Float32Array.from({ length: bytes.readUInt32LE(40) / 4 }, (_, i) => bytes.readInt16LE(44 + 4 * i + 2 * channel) / 32768);
  return [of(0), of(1)];
}

/** The page with its sound, and the samples of the clip, made once. */
let [page, clipLength] = ['', 0];

describe('report --then-now (says: issue 9, one page, a picture, a sound clip)', () => {
  test('JSON tells which takes, and what changed: the second kick, which was planted', async () => {
    const { exit, json } = await report('.svg');
    expect(exit).toBe(0);
    expect(json).toMatchObject({ format: 'report/1', exerciseCount: 1, problems: [] });
    expect(json.thenNow).toMatchObject({ of: 'first', sticking: 'RLRLKK', tempoBpm: 126, thenDay: '2026-02-03', nowDay: '2026-03-10' });
    const codes = json.thenNow.changes.map(({ code, params }: { code: string; params: { index?: number } }) => [code, params.index]);
    expect(codes[0]).toEqual(['progress-setup-differs', undefined]);
    expect(codes).toContainEqual(['progress-nearer-in-time', 5]);
    expect(json.thenNow.changes[0].text).toContain('(heel, pedal)');
  });

  test('the picture is 1920 by 1080, or square', async () => {
    expect(readFileSync((await report('.svg')).file, 'utf8')).toContain('width="1920" height="1080"');
    expect(readFileSync((await report('.svg', '--square')).file, 'utf8')).toContain('width="1080" height="1080"');
  });

  test('as PNG 1920 by 1080, or square, with ink on the ring and none beside it (arithmetic: a circle of 168 round 230, 230, half right and below)', async () => {
    const sizeOf = (png: Buffer) => [png.readUInt32BE(16), png.readUInt32BE(20)];
    expect(sizeOf(readFileSync((await report('.png')).file))).toEqual([1920, 1080]);
    const png = readFileSync((await report('.png', '--square')).file);
    expect(sizeOf(png)).toEqual([1080, 1080]);
    const lightAt = lightOf(png);
    // 30 + (230 + 168/√2)·500/460, and the same from 200 down.
    const across = (by: number) => lightAt(409 + by, 579 + by);
    expect(Math.min(...[-2, -1, 0, 1, 2].map(across))).toBeLessThan(160);
    expect([-14, 14, -400].map(across)).toEqual([255, 255, 255]);
  });

  test('the page holds both rings, the table with its heads, what differed as it was written, and the sound', async () => {
    const html = readFileSync((await report('.html')).file, 'utf8');
    page = html;
    expect(html.match(/<svg/g)).toHaveLength(2);
    expect(html.match(/<th scope="row">/g)).toHaveLength(6);
    expect(html).toContain('Pedal: not written down then, “the new &lt;one&gt; &amp; its felt beater, borrowed from the theatre” now.');
    expect(html).toMatch(/<audio controls src="data:audio\/wav;base64,UklGR/);
  });

  test('to the ear: four stretches, equally loud within .1 LU (says: ITU-R BS.1770-4)', async () => {
    const [left, right] = channelsOf(readFileSync((await report('.wav')).file));
    expect(left).toEqual(right);
    clipLength = left.length;
    const stretch = left.length / 4;
    const loud = [0, 1].map((k) => loudnessLkfs([left.slice(k * stretch, (k + 1) * stretch)], 44_100)!);
    expect(Math.abs(loud[0]! - loud[1]!)).toBeLessThan(0.1);
  });

  test('slowed to three quarters it lasts a third longer, and says so and what the set-up was (says: arithmetic; RIFF, LIST INFO)', async () => {
    const slowed = readFileSync((await report('.wav', '--speed', '0.75')).file);
    expect(channelsOf(slowed)[0].length / clipLength).toBeCloseTo(4 / 3, 4);
    const words = slowed.subarray(44 + slowed.readUInt32LE(40)).toString('utf8');
    expect(words).toMatch(/^LIST.{4}INFOINAM/s);
    expect(words).toContain('RLRLKK, 16ths at 126: Then and now');
    expect(words).toContain('Slowed to 75 % of its speed');
    expect(words).toContain('Heel: “down” then, “up” now.');
    expect(slowed.readUInt32LE(4)).toBe(slowed.length - 8);
  });

  test.each([[], ['--square']])('that the set-up differs stands in a picture %s, on the page, and beside every file', async (...shape) => {
    const { file, json } = await report('.svg', ...shape.flat());
    const texts = Array.from(readFileSync(file, 'utf8').matchAll(/<text[^>]*picture-said[^>]*>([^<]*)</g), ([, text]) => text);
    expect(texts.join(' ')).toContain('These takes were made with a different set-up (heel, pedal)');
    expect(page).toContain('These takes were made with a different set-up (heel, pedal)');
    expect(json.thenNow.setupDiffers).toBe(true);
  });

  test.skipIf(!hasPoppler)('on paper: one page of A4 or Letter, read back with the words of the change and the set-up (says: poppler)', async () => {
    for (const [size, paper] of [
      ['a4', '595.28 x 841.89 pts (A4)'],
      ['letter', '612 x 792 pts (letter)'],
    ] as const) {
      const { file } = await report('.pdf', '--paper', size);
      const info = spawnSync('pdfinfo', [file], { encoding: 'utf8' }).stdout;
      expect(info).toMatch(/Pages:\s+1\n/);
      expect(info).toContain(paper);
      const text = spawnSync('pdftotext', ['-raw', file, '-'], { encoding: 'utf8' }).stdout.replaceAll(/\s+/g, ' ');
      expect(text).toContain('RLRLKK, 16ths at 126');
      expect(text).toContain('Then, 3 Feb 2026');
      expect(text).toContain('Now, 10 Mar 2026');
      expect(text).toMatch(/Stroke 6 \(kick\) is nearer in time: \d\d ms early then/);
      expect(text).toContain('Heel: “down” then, “up” now.');
      expect(text).toContain(', for sure');
    }
  });

  test('out of a backup it is the same; without the sound the page stays and the clip is refused in words', async () => {
    const zip = join(folder(), 'diary.zip');
    expect(evenhandJson('diary', 'export', '--in', home, zip).exit).toBe(0);
    const out = join(folder(), 'b.html');
    expect((await called(zip, '--then-now', '-o', out)).exit).toBe(0);
    expect(readFileSync(out, 'utf8')).toBe(page);
    const silent = join(folder(), 'silent');
    cpSync(home, silent, { recursive: true });
    rmSync(join(silent, 'takes'), { recursive: true });
    const mute = await called(silent, '--then-now', '-o', out);
    expect([mute.exit, mute.json.thenNow.sound, mute.json.problems[0].code]).toEqual([0, false, 'then-now-without-sound']);
    const clip = await called(silent, '--then-now', '-o', join(folder(), 'c.wav'));
    expect([clip.exit, clip.json.problems[0].code]).toEqual([1, 'then-now-no-sound']);
  });

  test.each([
    { given: ['-o', 'a.jpg'], option: '-o' },
    { given: ['-o', 'a.pdf', '--paper', 'a5'], option: '--paper' },
    { given: ['-o', 'a.pdf', '--against', 'month'], option: '--against' },
    { given: ['-o', 'a.wav', '--speed', '0.2'], option: '--speed' },
  ])('a call that cannot be is told: $given', async ({ given, option }) => {
    const { exit, json } = await called(home, '--then-now', ...given);
    expect(exit).toBe(2);
    expect(json.problems).toMatchObject([{ code: 'call-option-not', params: { option } }]);
  });
});

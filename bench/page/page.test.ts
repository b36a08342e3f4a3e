import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { readMidi } from '../../cli/src/midi-file.ts';
import { midiFile, musicXml } from '../../core/src/sheet/index.ts';
import { expectedKeys, expectedMidi, expectedReading } from './expected.ts';
import { readMusicXml } from './readmusicxml.ts';
import { cutSample, FAMILIES, sampleOf } from './sample.ts';

const SAMPLE = [...sampleOf(30, 6), ...cutSample().slice(0, 10)];

test('the sample holds every family and phrases that bar lines cut', () => {
  expect([...new Set(SAMPLE.map(({ family }) => family))].sort()).toEqual([...FAMILIES, 'phrase'].sort());
});

describe.each(SAMPLE.map((each, i) => ({ ...each, i })))('$i, $family: $content.sticking', ({ content }) => {
  const read = readMusicXml(musicXml(content));

  test('FACTS.md 10, MusicXML 4.0: every note, place, head, ghost and sign is read back', () => {
    expect(read.reading).toEqual(expectedReading(content));
  });

  test('FACTS.md 10: the keys of the instruments are those of General MIDI, written one higher', () => {
    expect(read.keys.filter((key) => key >= 0).sort((a, b) => a - b)).toEqual(expectedKeys(content));
  });

  test('arithmetic: every voice fills every bar', () => {
    for (const { voices, whole } of read.bars) for (const voice of voices) expect(voice).toBe(whole);
  });

  test('FACTS.md 10, MIDI: tick, key and velocity are read back by the reader of MIDI files, which shares nothing with the writer', () => {
    const tempoBpm = 100;
    const told = readMidi(midiFile(content, { tempoBpm })).notes.map(({ timeSec, key, velocity, channel }) => ({
      // 3360 ticks to the quarter; seconds were made from them, so only rounding of the quotient is undone here.
      tick: Math.round((timeSec * tempoBpm * 3360 * 4) / (60 * content.meter.unit)),
      key,
      velocity,
      channel,
    }));
    const order = (a: { tick: number; key: number; velocity: number }, b: typeof a) => a.tick - b.tick || a.key - b.key || a.velocity - b.velocity;
    expect(told.sort(order)).toEqual(
      expectedMidi(content, tempoBpm)
        .map((note) => ({ ...note, channel: 9 }))
        .sort(order),
    );
  });
});

const schema = fileURLToPath(new URL('../../../shared/reference/musicxml/', import.meta.url));
const hasXmllint = spawnSync('xmllint', ['--version']).error === undefined;
const canCheck = hasXmllint && existsSync(schema);
if (!canCheck)
  process.stderr.write(`bench/page/page.test.ts: MusicXML not checked: ${hasXmllint ? '../shared/reference/musicxml is' : 'xmllint is'} not here\n`);

test.skipIf(!canCheck)('MusicXML 4.0 schema of the W3C, by xmllint: every file is valid', () => {
  const folder = mkdtempSync(join(tmpdir(), 'evenhand-musicxml-'));
  const files = SAMPLE.map(({ content }, i) => {
    const file = join(folder, `${i}.musicxml`);
    writeFileSync(file, musicXml(content, { title: 'a <title> & more', tempoBpm: 84 }));
    return file;
  });
  const { status, stderr } = spawnSync('xmllint', ['--nonet', '--noout', '--schema', join(schema, 'musicxml.xsd'), ...files], {
    env: { ...process.env, XML_CATALOG_FILES: join(schema, 'catalog.xml') },
    encoding: 'utf8',
  });
  rmSync(folder, { recursive: true });
  expect(stderr.split('\n').filter((line) => line && !line.endsWith('validates'))).toEqual([]);
  expect(status).toBe(0);
});

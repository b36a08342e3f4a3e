/** The JSON of each verb holds the keys that DESIGN.md promises, of the kinds it promises, and nothing else. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { evenhand, evenhandJson, fileOf, folder } from './evenhand.ts';
import { shapeOf } from './shape.ts';
import { playedTake, wavOf } from './takes.ts';

const faulty = { sticking: 'RLRLKK', perBeat: 4, tempoBpm: 92, cycles: 12, faults: [{ index: 5, earlyMs: 18, softDb: 6 }] };
let wav: Uint8Array;
beforeAll(() => {
  wav = wavOf(playedTake(faulty).samples);
});

const phrase = ['--sticking', 'RLRLKK', '--per-beat', '4'];

test('strokes: DESIGN.md, Command line', () => {
  const { exit, json, stderr } = evenhandJson('strokes', fileOf('take.wav', wav));
  expect({ exit, stderr }).toEqual({ exit: 0, stderr: '' });
  expect(shapeOf(json)).toEqual({
    format: 'string',
    sampleRateHz: 'number',
    durationSec: 'number',
    strokes: [{ timeSec: 'number', levelDb: 'number', confidence: 'number', drum: 'string' }],
    problems: [],
  });
  expect(json).toMatchObject({ format: 'strokes/1', sampleRateHz: 44100 });
});

describe('listen: DESIGN.md, Command line', () => {
  test('the keys and their kinds', () => {
    const { exit, json } = evenhandJson('listen', fileOf('take.wav', wav), ...phrase, '--tempo', '92');
    expect(exit).toBe(0);
    const shape = shapeOf(json) as Record<string, unknown>;
    expect(Object.keys(shape)).toEqual([
      ...['format', 'tempoBpm', 'trackedBpm', 'offsetMs', 'grid', 'strokes', 'extra', 'places', 'pairs', 'findings', 'problems'],
    ]);
    expect(shape).toMatchObject({
      format: 'string',
      tempoBpm: 'number',
      trackedBpm: 'number',
      offsetMs: 'null',
      grid: [{ beat: 'number', sec: 'number' }],
    });
    expect(shape.strokes).toEqual([
      {
        ...{ cycle: 'number', index: 'number', limb: 'string', status: 'string', expectedSec: 'number', playedSec: 'number' },
        ...{ errorMs: 'number', levelDb: 'number', confidence: 'number', graces: [] },
      },
    ]);
    expect(shape.places).toEqual([
      {
        ...{ index: 'number', limb: 'string', count: 'number', biasMs: 'number', biasLowMs: 'number', biasHighMs: 'number' },
        ...{ spreadMs: 'number', levelDb: 'number', missed: 'number', notAudible: 'number' },
      },
    ]);
    expect(shape.pairs).toEqual([
      {
        ...{ first: 'number', second: 'number', limb: 'string', gapMs: 'number', gapShare: 'number' },
        ...{ gapLow: 'number', gapHigh: 'number', levelStepDb: 'number', extraBounces: 'number' },
      },
    ]);
    expect(Object.keys((shape.findings as Record<string, unknown>[])[0]!)).toEqual([
      'cause',
      'indices',
      'weight',
      'code',
      'text',
      'params',
      'ties',
      'rivals',
      'fits',
    ]);
  });

  test('a planted early, soft second kick is the first finding, told in a sentence before any figure', () => {
    const file = fileOf('take.wav', wav);
    const { json } = evenhandJson('listen', file, ...phrase, '--tempo', '92');
    expect(json.findings[0].indices).toContain(5);
    const { stdout } = evenhand('listen', file, ...phrase, '--tempo', '92');
    expect(stdout.startsWith(json.findings[0].text)).toBe(true);
  });

  test('with its clicks told, the offset from the click is told', () => {
    const clicks = Array.from({ length: 18 }, (_, k) => 0.5 + (k * 60) / 92);
    const lines = fileOf('clicks.txt', `# seconds\n${clicks.join('\n')}\n`);
    const list = fileOf('clicks.json', JSON.stringify(clicks));
    const file = fileOf('take.wav', wav);
    const [one, other] = [lines, list].map((each) => evenhandJson('listen', file, ...phrase, '--tempo', '92', '--clicks', each).json);
    expect(typeof one.offsetMs).toBe('number');
    expect(other).toEqual(one);
  });
});

test('exercises: DESIGN.md, Command line; its strokes are counted from 1', () => {
  const { exit, json } = evenhandJson('exercises', ...phrase, '--cell', '5-6', '--limit', '3');
  expect(exit).toBe(0);
  expect(shapeOf(json)).toEqual({
    format: 'string',
    total: 'number',
    exercises: [
      {
        ...{ id: 'string', family: 'string', title: 'string', sticking: 'string', surfaces: ['string'], perBeat: 'number' },
        ...{ meter: { beats: 'number', unit: 'number' }, bars: 'number', reason: 'string' },
      },
    ],
    problems: [],
  });
  expect(json.format).toBe('exercises/1');
  expect(json.exercises).toHaveLength(3);
  expect(json.total).toBeGreaterThan(3);
  expect(json.exercises[0].sticking.replace(/[^K]/g, '')).toBe('KK');
});

test('exercises: at a tempo, with takes of one’s own: what lies beyond the reach so far says so, and the kick is the player’s', () => {
  const strokes = Array.from({ length: 120 }, (_, i) => {
    const limb = ['R', 'L', 'R', 'L', 'K', 'K'][i % 6];
    return { limb, status: 'played', expectedSec: (i * 15) / 90, errorMs: limb === 'K' ? 60 : 0 };
  });
  const take = fileOf('take.json', JSON.stringify({ format: 'listen/1', strokes }));
  const { exit, json } = evenhandJson('exercises', ...phrase, '--tempo', '90', '--played', take);
  expect(exit).toBe(0);
  // Arithmetic: sixteenths at 90 are 6 a second, which this foot did not hold; usual figures would allow 13.3.
  expect(json.reach[2]).toMatchObject({ limb: 'K', played: true });
  expect(json.reach[2].perSec[0]).toBeCloseTo(6, 9);
  expect(json.reach[2].text).toMatch(/^The kick: two in a row at 6\.0 a second.*yours so far\.$/);
  const asking = json.exercises.findIndex(({ beyond }: { beyond: unknown[] }) => beyond.length > 0);
  expect(asking).toBeGreaterThan(12);
  expect(json.exercises.slice(asking).every(({ beyond }: { beyond: unknown[] }) => beyond.length > 0)).toBe(true);
  expect(JSON.stringify(json)).not.toMatch(/impossible/i);
});

test('exercises: the piece of the week is named with its place and tempo; a tempo missing is refused with an example', () => {
  const { json } = evenhandJson('exercises', ...phrase, '--family', 'use', '--piece', 'Blue Hour, bridge@92', '--limit', '1');
  expect(json.exercises[0].title).toBe('In “Blue Hour”, bridge, at 92: four bars of time, four bars of RLRLKK');
  const wrong = evenhandJson('exercises', ...phrase, '--piece', 'Blue Hour');
  expect(wrong).toMatchObject({ exit: 2, json: { problems: [{ code: 'call-option-not' }] } });
});

test.each([
  { ending: 'musicxml', says: 'FACTS.md 10, MusicXML 4.0', begins: /^<\?xml[\s\S]{0,200}<score-partwise version="4.0">/ },
  { ending: 'mid', says: 'FACTS.md 10, Standard MIDI File', begins: /^MThd.{9}[\s\S]MTrk/s },
  { ending: 'wav', says: 'FACTS.md 10, WAV', begins: /^RIFF[\s\S]{4}WAVEfmt / },
])('sheet: the end of the name says the kind, .$ending begins as its format does ($says)', ({ ending, begins }) => {
  const file = join(folder(), `phrase.${ending}`);
  expect(evenhand('sheet', ...phrase, '-o', file).exit).toBe(0);
  expect(readFileSync(file, 'latin1')).toMatch(begins);
});

test('sheet: an SVG of a sticking, and the same of the exercise it came from', () => {
  const home = folder();
  const direct = join(home, 'direct.svg');
  expect(evenhandJson('sheet', ...phrase, '--format', 'svg', '-o', direct)).toMatchObject({ exit: 0, json: { format: 'sheet/1', file: direct } });
  expect(readFileSync(direct, 'utf8')).toMatch(/^<svg[\s\S]*<\/svg>\s*$/);
  const { stdout } = evenhand('exercises', ...phrase, '--family', 'inversion', '--limit', '1', '--json');
  const fromFile = join(home, 'exercise.svg');
  expect(evenhand('sheet', '--exercise', fileOf('exercise.json', stdout), '-o', fromFile).exit).toBe(0);
  expect(readFileSync(fromFile, 'utf8')).toMatch(/^<svg/);
});

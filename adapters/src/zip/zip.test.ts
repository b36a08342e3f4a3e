/** Archives are held against other readers of ZIP and against the published check value of their checksum. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { crc32 } from './crc.ts';
import { addEntry, bytesSource, EMPTY_ZIP, endZip, lastEntry, walkZip, type ZipSoFar } from './index.ts';

const ascii = (text: string) => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

function archive(entries: Readonly<Record<string, Uint8Array>>): Uint8Array {
  let zip: ZipSoFar = EMPTY_ZIP;
  const pieces: Uint8Array[] = [];
  for (const [name, bytes] of Object.entries(entries)) {
    const added = addEntry(zip, name, bytes);
    zip = added.zip;
    pieces.push(added.header, bytes);
  }
  return Uint8Array.from(Buffer.concat([...pieces, ...endZip(zip)]));
}

const SOME = { 'a.txt': ascii('123456789'), 'takes/b.flac': new Uint8Array(3000).map((_, i) => i * i), empty: new Uint8Array(0) };

const hasUnzip = spawnSync('unzip', ['-v']).status === 0;
if (!hasUnzip) process.stderr.write('zip.test.ts: skipped, unzip is not installed, so archives were not read by it\n');

describe('an archive', () => {
  it('checks its entries by CRC-32 (says: the check value of the RevEng catalogue, CRC-32/ISO-HDLC of "123456789" is cbf43926)', () => {
    expect(crc32(ascii('123456789'))).toBe(0xcbf43926);
    expect(crc32(new Uint8Array(0))).toBe(0);
  });

  it('is read back by another program for ZIP (says: fflate 0.8)', () => {
    const names = fc.stringMatching(/^[a-z0-9./-]{1,20}$/);
    fc.assert(
      fc.property(fc.dictionary(names, fc.uint8Array({ maxLength: 300 }), { noNullPrototype: true }), (entries) => {
        expect(unzipSync(archive(entries))).toEqual(entries);
      }),
    );
  });

  it.skipIf(!hasUnzip)('passes the test of another program (says: Info-ZIP UnZip -t)', () => {
    const file = join(mkdtempSync(join(tmpdir(), 'evenhand-zip-')), 'some.zip');
    writeFileSync(file, archive(SOME));
    expect(execFileSync('unzip', ['-t', file], { encoding: 'utf8' })).toContain('No errors detected');
    expect(Uint8Array.from(execFileSync('unzip', ['-p', file, 'takes/b.flac']))).toEqual(SOME['takes/b.flac']);
    expect(readFileSync(file).length).toBe(3009 + 3 * (30 + 46) + 2 * (5 + 12 + 5) + 22);
  });

  it('can be walked from the front and read from the back', async () => {
    const source = bytesSource(archive(SOME));
    const walk = await walkZip(source);
    expect(walk.entries.map(({ name, bytesAt, endAt }) => [name, endAt - bytesAt])).toEqual([
      ['a.txt', 9],
      ['takes/b.flac', 3000],
      ['empty', 0],
    ]);
    expect(walk.stoppedAt).toBe('directory');
    expect(await lastEntry(source, 'empty')).toEqual(new Uint8Array(0));
    expect(await lastEntry(source, 'a.txt')).toBe(null);
  });

  it('takes no name that readers understand differently', () => {
    for (const name of ['', 'ü', 'a b', 'a\n']) expect(() => addEntry(EMPTY_ZIP, name, new Uint8Array(0))).toThrow(/ASCII/);
  });

  it('refuses what ZIP cannot count', () => {
    const full = { byteCount: 0xffffffff - 40, directory: [] };
    expect(() => addEntry(full, 'much', new Uint8Array(10))).toThrow(/does not fit/);
    const many = { byteCount: 0, directory: Array.from({ length: 0xffff }, () => new Uint8Array(0)) };
    expect(() => addEntry(many, 'more', new Uint8Array(0))).toThrow(/does not fit/);
  });
});

import { afterEach, beforeEach, expect, test } from 'vitest';
import { say, speakAs, spoken, subdivisionName, tempoName } from './said.ts';
import { learnAllSentences } from './saidall.ts';

beforeEach(learnAllSentences);
afterEach(() => speakAs('american'));

test('British names hold for tempi, subdivisions and sentences until they are changed back (common practice, no source)', () => {
  const aim = { code: 'plan-aim-learn', params: { tempoBpm: 80, perBeat: 2 } };
  expect([tempoName(96, 4), subdivisionName(2), spoken()]).toEqual(['16ths at 96', '8ths', 'en']);
  expect(say(aim)).toContain('8ths at 80');
  speakAs('british');
  expect([tempoName(96, 4), subdivisionName(2), spoken()]).toEqual(['semiquavers at 96', 'quavers', 'en-GB']);
  expect(say(aim)).toContain(' quavers at 80');
});

/** `plan`: the JSON that DESIGN.md promises, exact minutes and days, and missed days that move sessions without touching the past. */
import { describe, expect, test } from 'vitest';
import { evenhand, evenhandJson, fileOf } from './evenhand.ts';
import { shapeOf } from './shape.ts';

const phrase = ['--sticking', 'RLRLKK', '--per-beat', '4'];
const span = ['--weeks', '5', '--days', '5', '--minutes', '12', '--start', '2026-02-02'];
const planned = (...more: string[]) => evenhandJson('plan', ...phrase, ...span, ...more);
const movedOn = (plan: unknown, ...more: string[]) => evenhandJson('plan', '--from', fileOf('plan.json', JSON.stringify(plan)), ...more);

interface Session {
  readonly date: string;
  readonly minutes: number;
  readonly blocks: readonly {
    readonly exerciseId: string;
    readonly minutes: number;
    readonly tempoBpm: number;
    readonly aim: string;
    readonly reason: string;
  }[];
}
const datesOf = (json: { sessions: readonly Session[] }) => json.sessions.map(({ date }) => date);

test('the keys and their kinds: DESIGN.md, Command line', () => {
  const { exit, json, stderr } = planned();
  expect({ exit, stderr }).toEqual({ exit: 0, stderr: '' });
  const statement = { code: 'string', params: {} };
  const shape = shapeOf({ ...json, sessions: json.sessions.map(withoutParams) });
  expect(shape).toMatchObject({
    format: 'string',
    sessions: [
      {
        date: 'string',
        minutes: 'number',
        blocks: [
          {
            ...{ exerciseId: 'string', minutes: 'number', tempoBpm: 'number', aim: 'string', reason: 'string' },
            said: { aim: statement, reason: statement, tempoReason: statement },
          },
        ],
      },
    ],
    problems: [],
  });
  expect(json.format).toBe('plan/1');
});

// biome-ignore lint/suspicious/noExplicitAny: what the JSON holds is what this test finds out
const withoutParams = (session: any) => ({
  ...session,
  blocks: session.blocks.map((block: { said: Record<string, { code: string }> }) => ({
    ...block,
    said: Object.fromEntries(Object.entries(block.said).map(([name, { code }]) => [name, { code, params: {} }])),
  })),
});

describe('what counts for closing (says: issue 7, every family chosen, use included)', () => {
  test('is in the plan with use, said in words, and carried on by a missed day; without it the field is missing', () => {
    const { json } = planned('--closing', 'groove,pad');
    expect(json.closing).toEqual(['pad', 'groove', 'use']);
    expect({ ...planned().json, closing: json.closing }).toEqual(json);
    expect(planned().json).not.toHaveProperty('closing');
    expect(movedOn(json, '--missed', json.sessions[0].date).json.closing).toEqual(json.closing);
    expect(movedOn(json, '--closing', 'fill').json.closing).toEqual(['fill', 'use']);
    const { stdout } = evenhand('plan', ...phrase, ...span, '--closing', 'pad');
    expect(stdout.split('\n')[0]).toBe('To close the phrase, these count: pad work and the phrase in music.');
  });

  test.each(['pads', 'pad,,groove', 'pad,polka'])('%j is refused, and what there is is named', (given) => {
    const { exit, json } = planned('--closing', given);
    expect([exit, json.problems[0].code, json.problems[0].params.option]).toEqual([2, 'call-option-not', '--closing']);
    expect(json.problems[0].text).toContain('groove');
  });
});

test('five weeks of five days of twelve minutes: 25 sessions, minutes exact, an aim and a reason in every block: issue 3', () => {
  const { json } = planned('--cell', '5-6', '--tempo', '72', '--goal', '96');
  expect(json.sessions).toHaveLength(25);
  const ids = new Set(json.exercises.map(({ id }: { id: string }) => id));
  for (const { minutes, blocks } of json.sessions as readonly Session[]) {
    expect(minutes).toBe(12);
    expect(blocks.reduce((sum, block) => sum + block.minutes, 0)).toBe(12);
    for (const { aim, reason, tempoBpm, exerciseId } of blocks) {
      expect([aim, reason].every((text) => /^[A-Z].*[.?!]$/.test(text))).toBe(true);
      expect(Number.isInteger(tempoBpm) && ids.has(exerciseId)).toBe(true);
    }
  }
  expect([...datesOf(json)]).toEqual([...new Set(datesOf(json))].sort());
  expect(datesOf(json)[0]).toBe('2026-02-02');
  expect(datesOf(json).every((date) => date >= '2026-02-02' && date <= '2026-03-08')).toBe(true);
});

test('the same call gives the same bytes; the tempo told now is where the phrase starts', () => {
  expect(planned('--tempo', '72').stdout).toBe(planned('--tempo', '72').stdout);
  const [first] = planned('--tempo', '72').json.sessions as readonly Session[];
  expect(first!.blocks.at(-1)!.tempoBpm).toBe(72);
});

test('for people: a paragraph a day, with tempo, aim and reason', () => {
  const { stdout, exit } = evenhand('plan', ...phrase, ...span);
  const paragraphs = stdout.trimEnd().split('\n\n');
  expect([exit, paragraphs.length]).toEqual([0, 25]);
  const [first] = planned().json.sessions as readonly Session[];
  expect(paragraphs[0]).toMatch(/^Monday 2026-02-02, 12 minutes\n/);
  for (const { aim, reason, tempoBpm } of first!.blocks) for (const text of [aim, reason, `at ${tempoBpm}`]) expect(paragraphs[0]).toContain(text);
});

describe('a missed day', () => {
  const { json: plan } = planned();

  test('moves its session and those after it; what was before stays byte for byte', () => {
    const missed = datesOf(plan)[3]!;
    const { exit, json } = movedOn(plan, '--missed', missed);
    expect(exit).toBe(0);
    expect(JSON.stringify(json.sessions.slice(0, 3))).toBe(JSON.stringify(plan.sessions.slice(0, 3)));
    expect(datesOf(json)).not.toContain(missed);
    const blocks = ({ sessions }: { sessions: readonly Session[] }) => sessions.map((session) => session.blocks);
    expect(blocks(json)).toEqual(blocks(plan));
    expect(json.away).toEqual([missed]);
    expect(datesOf(json).slice(3, -1)).toEqual(datesOf(plan).slice(4));
    expect(json.changes[0]).toMatchObject({ code: 'plan-session-moved', params: { from: missed, to: datesOf(plan)[4] } });
    expect(json.exercises).toEqual(plan.exercises);
  });

  test('twice is once; several at once may stand behind one --missed, or behind one each', () => {
    const [first, second] = [datesOf(plan)[1]!, datesOf(plan)[4]!];
    const { json } = movedOn(plan, '--missed', first, second);
    expect(movedOn(plan, '--missed', first, '--missed', second).json).toEqual(json);
    const again = movedOn(json, '--missed', first, second);
    expect(again.json.sessions).toEqual(json.sessions);
    expect([again.json.problems, again.json.changes[0].code]).toEqual([[], 'plan-unchanged']);
  });

  test('without a session moves nothing and is told', () => {
    const { exit, json } = movedOn(plan, '--missed', '2026-02-05');
    expect([exit, json.problems[0].code, json.sessions]).toEqual([0, 'plan-missed-not-planned', plan.sessions]);
  });

  test('of a plan that somebody wrote, with no more than DESIGN.md has; what stands beside it is kept', () => {
    const block = { exerciseId: 'mine', minutes: 10, tempoBpm: 80, aim: 'Relaxed.', reason: 'My teacher said so.', colour: 'blue' };
    const days = ['2026-02-02', '2026-02-04'];
    const own = { sessions: days.map((date) => ({ date, minutes: 10, blocks: [block], mood: 'good' })) };
    const { exit, json } = movedOn(own, '--missed', '2026-02-04');
    expect(exit).toBe(0);
    expect(json.sessions).toEqual([own.sessions[0], { ...own.sessions[1], date: '2026-02-09' }]);
  });

  test('another sticking than the plan’s is told', () => {
    expect(movedOn(plan, '--sticking', 'RLRR', '--per-beat', '4').json.problems[0].code).toBe('plan-other-phrase');
    expect(movedOn(plan, ...phrase, ...span).json.problems).toEqual([]);
  });
});

describe('what is agreed with a plan: issue 7', () => {
  const exercise = { sticking: 'RLRR', surfaces: ['snare', 'snare', 'snare', 'snare'], perBeat: 4, meter: { beats: 4, unit: 4 } };
  const agreed = () => {
    const file = fileOf('own.json', JSON.stringify(exercise));
    return planned(
      ...['--tempo', '86', '--cap', '80', '--way', 'two-up-one-back', '--click', 'two-and-four', '--until', '2026-02-08'],
      ...['--warm-up', `${file}@60`, '--own', `${file}@100:2`],
    ).json;
  };

  test('a cap and a way hold until their day; the warm-up and the piece of one’s own are in every session, minutes exact', () => {
    const json = agreed();
    for (const { date, minutes, blocks } of json.sessions) {
      const own = blocks.filter(({ title, part }: { title: string; part: string }) => title.includes('as it stands') && part !== 'reference');
      for (const { tempoBpm, capBpm, click, part } of own)
        expect([capBpm, tempoBpm <= 80, click?.place]).toEqual(
          date <= '2026-02-08' ? [80, true, part === 'warmUp' ? undefined : 'twoAndFour'] : [undefined, tempoBpm <= 80, undefined],
        );
      const ways = blocks.filter(({ way }: { way?: string }) => way === 'twoUpOneBack');
      expect(ways.length > 0).toBe(date <= '2026-02-08');
      expect([blocks[0].tempoBpm, blocks[0].title, blocks.at(-2).tempoBpm, blocks.at(-2).minutes]).toEqual([60, 'RLRR', 100, 2]);
      expect(blocks.reduce((sum: number, block: { minutes: number }) => sum + block.minutes, 0)).toBe(minutes);
    }
    expect(json.exercises.map(({ sticking }: { sticking: string }) => sticking)).toContain('RLRR');
  });

  test('a day that is not as planned: without a microphone no reference take, quiet on a pad all of it on one drum, pain no session at all', () => {
    const json = agreed();
    const [monday] = json.sessions;
    const on = (...more: string[]) => movedOn(json, '--day', monday.date, ...more);
    expect(on('--is', 'no-microphone').json.sessions[0].blocks.map(({ part }: { part: string }) => part)).not.toContain('reference');
    const quiet = on('--is', 'quiet', '--feet', 'none').json;
    const drums = quiet.sessions[0].blocks.map(
      ({ exerciseId }: { exerciseId: string }) => quiet.exercises.find(({ id }: { id: string }) => id === exerciseId).surfaces,
    );
    for (const of of drums) expect(new Set(of).size).toBe(1);
    expect(on('--minutes', '5').json.sessions[0].minutes).toBe(5);
    expect(on('--is', 'hurts').json).toMatchObject({ sessions: [], changes: [{ code: 'plan-hurts' }] });
  });

  test('a phrase that is closed has checks three and eight weeks later, and two weeks of work when it is opened again', () => {
    const json = agreed();
    const closed = movedOn(json, '--closed', '2026-02-08').json;
    const later = datesOf(closed).filter((date) => date > '2026-02-08');
    expect(later).toEqual(['2026-03-02', '2026-04-06']);
    const opened = movedOn(closed, '--opened', '2026-05-04').json;
    expect(datesOf(opened).filter((date) => date >= '2026-05-04')).toHaveLength(10);
    expect(JSON.stringify(opened.sessions.slice(0, 5))).toBe(JSON.stringify(json.sessions.slice(0, 5)));
  });
});

test.each([
  { given: [...phrase, ...span, '--day', '2026-02-02'], exit: 2, code: 'call-missed-without-plan', words: /--from/ },
  { given: [...phrase, ...span, '--way', 'zz=bursts'], exit: 2, code: 'call-option-not', words: /id of an exercise/ },
  { given: [...phrase, ...span, '--click', 'loud'], exit: 2, code: 'call-option-not', words: /two-and-four/ },
  { given: [...phrase, ...span, '--weeks', '0'], exit: 2, code: 'call-option-not', words: /whole number from 1/ },
  { given: [...phrase, ...span, '--minutes', '61'], exit: 2, code: 'plan-minutes-range', words: /61 minutes/ },
  { given: [...phrase, ...span, '--days', '8'], exit: 2, code: 'plan-days-range', words: /8 days/ },
  { given: [...phrase, ...span, '--weeks', '54'], exit: 2, code: 'plan-weeks-range', words: /54 weeks/ },
  { given: [...phrase, ...span, '--start', '2026-02-30'], exit: 2, code: 'plan-start-not-a-day', words: /2026-02-30/ },
  { given: [...phrase, ...span, '--goal', '5'], exit: 2, code: 'plan-tempo-range', words: /5/ },
  { given: [...phrase, ...span, '--cell', '6-7'], exit: 2, code: 'cell-outside', words: /./ },
  { given: ['--sticking', 'RLX', '--per-beat', '4', ...span], exit: 2, code: 'sticking-unknown-character', words: /\^/ },
  { given: [...phrase, '--weeks', '5', '--days', '5', '--minutes', '12'], exit: 2, code: 'call-option-missing', words: /--start 2026-02-02/ },
  { given: [...phrase, ...span, '--missed', '2026-02-03'], exit: 2, code: 'call-missed-without-plan', words: /--from/ },
  { given: ['--from', 'nowhere.json', '--missed', 'yesterday'], exit: 2, code: 'call-option-not', words: /"yesterday"/ },
  { given: ['--from', 'nowhere.json'], exit: 1, code: 'file-not-found', words: /nowhere\.json/ },
])('evenhand plan $given: $code', ({ given, exit, code, words }) => {
  const ran = evenhandJson('plan', ...given);
  expect([ran.exit, ran.json.format, ran.json.sessions]).toEqual([exit, 'plan/1', []]);
  expect(ran.json.problems.map((problem: { code: string }) => problem.code)).toEqual([code]);
  expect(ran.stderr).toMatch(words);
  expect(ran.stderr).not.toMatch(/\n\s+at |undefined|NaN|\[object/);
});

test.each([
  { says: 'no JSON', text: '{"sessions": [', code: 'plan-not-json' },
  { says: 'no plan', text: '[]', code: 'plan-not-a-plan' },
  { says: 'nothing', text: 'null', code: 'plan-not-a-plan' },
  { says: 'a session without a date', text: '{"sessions": [{"minutes": 5, "blocks": []}]}', code: 'plan-session-unreadable' },
  { says: 'a block that is no block', text: '{"sessions": [{"date": "2026-02-02", "minutes": 5, "blocks": [3]}]}', code: 'plan-session-unreadable' },
])('a file that holds $says: $code, exit 1', ({ text, code }) => {
  const { exit, json } = evenhandJson('plan', '--from', fileOf('plan.json', text), '--missed', '2026-02-02');
  expect([exit, json.sessions, json.problems[0].code]).toEqual([1, [], code]);
});

/** A plan as it stands in a file: sentences for people, codes beside them for programs; read back without rewriting what is past. */
import type { Exercise } from '@evenhand/core/exercise';
import { type Plan, type PlannedBlock, type PlannedSession, readPlan } from '@evenhand/core/plan';
import type { Statement } from '@evenhand/core/problem';
import { type SaidProblem, say, sayProblem } from '@evenhand/core/words';
import { readText } from './files.ts';
import { refuse } from './problems.ts';

/** What a block says, as codes. */
type Said = Pick<PlannedBlock, 'aim' | 'reason' | 'tempoReason'>;

/** A block as it is written. Fields that a later version or a person wrote beside these are kept. */
export interface WrittenBlock extends Omit<PlannedBlock, keyof Said> {
  /** What the exercise is called. */
  readonly title?: string;
  readonly aim: string;
  readonly reason: string;
  readonly tempoReason: string;
  readonly said?: Said;
}

export interface WrittenSession extends Omit<PlannedSession, 'blocks'> {
  readonly blocks: readonly WrittenBlock[];
}

/** The phrase a plan was made for. */
export type WrittenPhrase = Pick<Exercise, 'sticking' | 'surfaces' | 'perBeat' | 'meter'>;

/** A plan from a file. */
export interface PlanFile {
  readonly plan: Plan;
  /** The phrase, the tempo it is wanted at and the exercises, as they were written; undefined where they were not. */
  readonly phrase: WrittenPhrase | undefined;
  readonly goalBpm: unknown;
  readonly exercises: readonly unknown[];
}

export type ReadPlanFile =
  | { readonly value: PlanFile; readonly problems: readonly SaidProblem[] }
  | { readonly value: null; readonly problems: readonly SaidProblem[] };

/**
 * A session as it is written. One that came from a file is given back as it was written there, whatever day it is on now.
 * @param exercises among which those of the session are.
 */
export function writtenSession(session: PlannedSession, exercises: readonly Exercise[]): WrittenSession {
  const { written } = session as PlannedSession & { readonly written?: WrittenSession };
  return written ? { ...written, date: session.date } : { ...session, blocks: session.blocks.map((block) => writtenBlock(block, exercises)) };
}

const writtenBlock = ({ exerciseId, aim, reason, tempoReason, ...block }: PlannedBlock, exercises: readonly Exercise[]): WrittenBlock => ({
  ...block,
  exerciseId,
  title: titleOf(exercises.find(({ id }) => id === exerciseId)),
  aim: say(aim),
  reason: say(reason),
  tempoReason: say(tempoReason),
  said: { aim, reason, tempoReason },
});

/** In a plan's file titles are sentences already. */
const titleOf = (exercise: { readonly title: Exercise['title'] | string } | undefined): string =>
  typeof exercise?.title === 'string' ? exercise.title : exercise ? say(exercise.title) : '';

/** Reads the plan in a file: one that this program printed, or one that the app keeps. */
export function readPlanFile(file: string): ReadPlanFile {
  const text = readText(file);
  if (text.problem) return { value: null, problems: [text.problem] };
  let json: unknown;
  try {
    json = JSON.parse(text.value.replace(/^\uFEFF/, ''));
  } catch {
    return { value: null, problems: [refuse('plan-not-json', { file })] };
  }
  const { value: plan, problems } = readPlan(withStatements(json));
  if (!plan) return { value: null, problems: problems.map((problem) => sayProblem(problem)) };
  const { phrase, goalBpm, exercises } = json as { phrase?: unknown; goalBpm?: unknown; exercises?: unknown };
  return {
    value: { plan, phrase: isPhrase(phrase) ? phrase : undefined, goalBpm, exercises: Array.isArray(exercises) ? exercises : [] },
    problems: [],
  };
}

const isPhrase = (value: unknown): value is WrittenPhrase =>
  isObject(value) && typeof value.sticking === 'string' && typeof value.perBeat === 'number';

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> => typeof value === 'object' && value !== null && !Array.isArray(value);

/** The same JSON with codes where sentences were, and each session beside itself as it is written. */
function withStatements(json: unknown): unknown {
  if (!isObject(json) || !Array.isArray(json.sessions)) return json;
  return { ...json, sessions: (json.sessions as readonly unknown[]).map(sessionWithStatements) };
}

function sessionWithStatements(session: unknown): unknown {
  if (!isObject(session) || !Array.isArray(session.blocks)) return session;
  const blocks = session.blocks as readonly unknown[];
  return { ...session, blocks: blocks.map(blockWithStatements), written: { ...session, blocks: blocks.map(blockWithSentences) } };
}

/** Blocks need no part and no reason for the tempo: who wrote a plan by hand had none to give. */
function blockWithStatements(block: unknown): unknown {
  if (!isObject(block)) return block;
  const said = isObject(block.said) ? block.said : {};
  const statement = (name: keyof Said) => said[name] ?? asStatement(block[name]);
  return {
    ...block,
    part: block.part ?? 'work',
    aim: statement('aim'),
    reason: statement('reason'),
    tempoReason: statement('tempoReason') ?? asStatement(''),
  };
}

function blockWithSentences(block: unknown): unknown {
  if (!isObject(block)) return block;
  const sentence = (value: unknown) => (isObject(value) && typeof value.code === 'string' ? say(value as unknown as Statement) : value);
  const { aim, reason, tempoReason } = block;
  return { ...block, aim: sentence(aim), reason: sentence(reason), ...(tempoReason === undefined ? {} : { tempoReason: sentence(tempoReason) }) };
}

/** A sentence as a statement: `say` gives a code that it does not know as it is. */
const asStatement = (value: unknown): unknown => (typeof value === 'string' ? { code: value, params: {} } : value);

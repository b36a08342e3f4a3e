/** Where a call begins and ends: finds the verb, runs it, prints for a program or for a person, and says how it went. */
import { writeSync } from 'node:fs';
import type { SaidProblem } from '@evenhand/core/words';
import { version } from '../package.json';
import { readCall } from './arguments.ts';
import { helpForAll, helpForVerb } from './help.ts';
import { nearest } from './nearest.ts';
import type { Outcome } from './outcome.ts';
import { refuse } from './problems.ts';
import type { Verb } from './verb.ts';
import { verbs } from './verbs/index.ts';

/**
 * Runs one call and sets `process.exitCode`.
 * @param given what was typed after `evenhand`.
 */
export async function main(given: readonly string[]): Promise<void> {
  for (const stream of [process.stdout, process.stderr]) stream.on('error', leave);
  const asJson = given.some((word) => /^--json(=|$)/.test(word));
  const words = given[0] === 'help' ? [...given.slice(1), '--help'] : given.filter((word, i) => i > 0 || word !== '--json');
  const [name] = words;
  if (name === undefined && asJson) return print(unsaid(verbs), asJson);
  if (name === undefined || ['--help', '-h', 'help'].includes(name)) return showHelp([helpForAll(verbs)], name === undefined ? 2 : 0);
  if (name === '--version' || name === '-v') return print(versionTold, asJson);
  const verb = verbs.find((candidate) => candidate.name === words.slice(0, wordCount(candidate)).join(' '));
  const group = verb ? [verb] : verbs.filter((candidate) => candidate.name.startsWith(`${name} `));
  const wantsHelp = words.includes('--help') || words.includes('-h');
  if (group.length > 0 && wantsHelp) return showHelp(group.map(helpForVerb), 0);
  print(verb ? await outcomeOf(verb, words.slice(wordCount(verb))) : unknownVerb(words, group), asJson);
}

function showHelp(texts: readonly string[], exit: Outcome['exit']): void {
  process.exitCode = exit;
  process.stdout.write(`${texts.join('\n\n')}\n`);
}

/** The version, as the package says. */
const versionTold: Outcome = { exit: 0, json: { format: 'evenhand/1', version, problems: [] }, lines: [`evenhand ${version}`] };

const wordCount = (verb: Verb): number => verb.name.split(' ').length;

/** @param group verbs of two words that begin with the first word. */
function unknownVerb(words: readonly string[], group: readonly Verb[]): Outcome {
  const second = words[1];
  if (group.length > 0 && (second === undefined || second.startsWith('-'))) return unsaid(group);
  const given = group.length > 0 ? `${words[0]} ${second}` : words[0]!;
  const meant = nearest(
    given,
    verbs.map(({ name }) => name),
  );
  return notDone(refuse('call-unknown-verb', { given, nearest: meant ?? '' }));
}

const unsaid = (among: readonly Verb[]): Outcome => notDone(refuse('call-verb-unfinished', { verbs: among.map(({ name }) => name) }));
const notDone = (problem: SaidProblem): Outcome => ({ exit: 2, json: { format: 'evenhand/1', problems: [problem] }, lines: [] });

async function outcomeOf(verb: Verb, given: readonly string[]): Promise<Outcome> {
  const { call, problems } = readCall(verb, given);
  if (problems.length > 0) return { exit: 2, json: { format: verb.format, ...verb.empty, problems }, lines: [] };
  try {
    return await verb.run(call);
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    return { exit: 1, json: { format: verb.format, ...verb.empty, problems: [refuse('unforeseen', { message })] }, lines: [] };
  }
}

function print(outcome: Outcome, asJson: boolean): void {
  // First, so that it counts when a reader of what is printed goes away.
  process.exitCode = outcome.exit;
  for (const problem of outcome.json.problems) process.stderr.write(`${[problem.text, ...caret(outcome, problem)].join('\n')}\n`);
  if (asJson) process.stdout.write(`${JSON.stringify(outcome.json)}\n`);
  else if (outcome.lines.length > 0) process.stdout.write(`${outcome.lines.join('\n')}\n`);
}

function caret({ pointed }: Outcome, problem: SaidProblem): string[] {
  if (problem.at === undefined || !pointed?.problems.includes(problem)) return [];
  return [`    ${pointed.text}`, `    ${' '.repeat(problem.at)}^`];
}

/** A reader that stops early (a pager, `head`) is no failure; a disk that takes no more is. */
function leave({ code, message }: NodeJS.ErrnoException): void {
  if (code === 'EPIPE') process.exit();
  writeSync(2, `${refuse('print-not-written', { reason: code ?? message }).text}\n`);
  process.exit(1);
}

/** `serve`: hands out the files of the built app on this machine. */
import { existsSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { SaidProblem } from '@evenhand/core/words';
import sirv from 'sirv';
import { setHeaders } from '../headers.ts';
import type { Outcome } from '../outcome.ts';
import { doubt, refuse } from '../problems.ts';
import type { Call, Verb } from '../verb.ts';

/** Where the app is when no port is asked for; always the same, because a browser keeps the diary by address. */
const USUAL_PORT = 4733;
/** How many ports above the wanted one are tried. */
const PORTS_TRIED = 20;

const empty = { address: null, port: null };

export const serve: Verb = {
  name: 'serve',
  format: 'serve/1',
  summary: 'Serves the app to a browser on this machine.',
  about: 'Serves the app to a browser on this machine, and to no other. Stop it with Ctrl-C; what you recorded stays in the browser.',
  takesFile: false,
  options: [{ name: 'port', kind: 'whole', placeholder: 'N', example: '4500', about: `Port to serve at; ${USUAL_PORT} unless said.` }],
  example: 'evenhand serve --port 4500',
  empty,
  run: (call) => start(call),
};

async function start(call: Call): Promise<Outcome> {
  // The built program stands in cli/dist, beside web/dist two folders up.
  const folder = join(dirname(fileURLToPath(import.meta.url)), '..', '..', 'web', 'dist');
  if (!existsSync(join(folder, 'index.html'))) return failed(refuse('serve-not-built', {}));
  const wanted = call.number.port ?? USUAL_PORT;
  const files = sirv(folder, { etag: true, setHeaders: (response, path) => setHeaders(response, path) });
  const server = createServer((request, response) => files(request, response));
  for (let port = wanted; port < wanted + PORTS_TRIED; port++) {
    const reason = await listen(server, port);
    if (reason === null) return serving(port, wanted);
    if (reason !== 'EADDRINUSE') return failed(refuse('serve-no-port', { port, reason }));
  }
  return failed(refuse('serve-no-port', { port: wanted, reason: `the ${PORTS_TRIED} ports from there are taken` }));
}

/** Listens on this machine alone; gives null, or the code of what kept it from listening. */
const listen = (server: Server, port: number): Promise<string | null> =>
  new Promise((resolve) => {
    const refused = (error: NodeJS.ErrnoException) => resolve(error.code ?? error.message);
    if (port > 65535) return resolve('there is no such port');
    server.once('error', refused);
    server.listen(port, '127.0.0.1', () => {
      server.off('error', refused);
      resolve(null);
    });
  });

function serving(port: number, wanted: number): Outcome {
  const address = `http://localhost:${port}/`;
  const problems = port === wanted ? [] : [doubt('serve-port-taken', { port: wanted, next: port })];
  return { exit: 0, json: { format: 'serve/1', address, port, problems }, lines: [`Evenhand is at ${address}`, 'Stop it with Ctrl-C.'] };
}

const failed = (problem: SaidProblem): Outcome => ({ exit: 1, json: { format: 'serve/1', ...empty, problems: [problem] }, lines: [] });

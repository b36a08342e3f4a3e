/** What a programmer got wrong. What a drummer can cause is a Problem instead (problem.ts). */

/** Base of every error this package throws on purpose. */
export class EvenhandError extends Error {
  override name = 'EvenhandError';
}

/** A value outside what a function is documented to take. The message names parameter, value and what was expected. */
export class ParameterError extends EvenhandError {
  override name = 'ParameterError';
  constructor(
    readonly parameter: string,
    readonly value: unknown,
    readonly expected: string,
  ) {
    super(`${parameter} is ${String(value)}; expected ${expected}`);
  }
}

/** A state that the code promises never to reach. */
export class InvariantError extends EvenhandError {
  override name = 'InvariantError';
}

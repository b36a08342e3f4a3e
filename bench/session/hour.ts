/** Proof: the bench of a running session for an hour. */
import { proveSession } from './proof.ts';

proveSession(60, 'memory');

/** Proof: the frame of a running session for a quarter of an hour, on a machine that does nothing else. */
import { proveSession } from './proof.ts';

proveSession(15, 'frame');

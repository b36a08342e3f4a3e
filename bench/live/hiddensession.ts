/** Proof: a whole session of a page out of sight, on a machine that does nothing else. */
import { proveHidden } from './hiddenproof.ts';

proveHidden('a session:');

/** Proof: click and ear of a page out of sight. */
import { proveHidden } from './hiddenproof.ts';

proveHidden('the (click|ear):');

/** Laws are tried with the same examples on every machine and every day: one seed for all of them, unless a test says its own. */
import fc from 'fast-check';

fc.configureGlobal({ seed: 20_261_125 });

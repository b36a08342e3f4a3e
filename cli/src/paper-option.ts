/** What is printed on: one option for every verb that writes PDF. */
import { PAPERS, type PaperSize } from '@evenhand/adapters/paper-size';
import type { SaidProblem } from '@evenhand/core/words';
import { refuseOption } from './problems.ts';
import type { Call, OptionSpec } from './verb.ts';

export const paperOption: OptionSpec = {
  name: 'paper',
  kind: 'text',
  placeholder: 'SIZE',
  example: 'letter',
  about: 'In PDF: a4, or letter (US); a4 unless said.',
};

const SIZES = Object.keys(PAPERS) as PaperSize[];

/** The size that was asked for; null for one that there is not, or when none was. */
export const paperOf = ({ text }: Call): PaperSize | null => SIZES.find((size) => size === text.paper) ?? null;

/** What is said of a size that there is not. */
export const refusePaper = (given: string): SaidProblem => refuseOption('--paper', given, { wanted: SIZES.join(' or '), example: 'letter' });

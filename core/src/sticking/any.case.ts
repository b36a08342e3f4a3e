/** Any sticking of the grammar, for property tests: texts built by the grammar itself, not by our writer. */
import fc from 'fast-check';

const limb = fc.constantFrom('R', 'L', 'K', 'H');
const signs = fc.constantFrom('', '', '', '>', 'l', 'r', 'll', 'rr', 'l>', '>r', '>ll', 'rlr');
const core = fc.oneof(
  { weight: 5, arbitrary: limb },
  limb.map((letter) => `${letter}/`),
  limb.map((letter) => `${letter}z`),
  limb.map((letter) => `(${letter})`),
);
const stroke = fc.tuple(signs, core).map(([sign, letter]) => sign + letter);
const together = fc
  .uniqueArray(limb, { minLength: 2, maxLength: 4 })
  .chain((limbs) => fc.tuple(...limbs.map((letter) => signs.map((sign) => sign + letter))).map((strokes) => strokes.join('+')));
const event = fc.oneof({ weight: 6, arbitrary: stroke }, fc.constant('-'), together);
const spaces = fc.constantFrom('', '', ' ', '\t ');
const spaced = fc.array(fc.tuple(spaces, event), { minLength: 1, maxLength: 7 }).map((events) => events.flat().join(''));
const group = fc.tuple(fc.integer({ min: 1, max: 6 }), spaced).map(([count, events]) => `{${count}:${events}}`);

/** Texts of the whole grammar, with at least one stroke. */
export const anySticking = fc
  .array(fc.oneof({ weight: 3, arbitrary: spaced }, group), { minLength: 1, maxLength: 5 })
  .map((parts) => parts.join(' '))
  .filter((text) => /[RLKH]/.test(text));

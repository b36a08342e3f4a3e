/** Labels of then and now as pictures and sound; fetched with their screen. */

/** What the two takes are called. */
type Sides = readonly [string, string];

const lower = (text: string): string => text.toLowerCase();

export const thenNowLabels = {
  rings: 'Then and now as stroke rings',
  hear: 'Hear it',
  how: 'How',
  inTurn: ([was, is]: Sides) => lower([was, is, was, is].join(', ')),
  oneEarEach: ([was, is]: Sides) => `${lower(was)} left, ${lower(is)} right (headphones)`,
  listening: 'Laying the two takes alongside each other …',
  missing: 'The sound of one of the two takes is not on this device any more, or too little of it can be told. Its figures are kept.',
  laid: (cycles: number, strokes: number) => `The same ${cycles} cycles of both, laid alongside by ${strokes} strokes and made equally loud.`,
  drift: (ms: number) => `The tempi differ a little: by the end they are ${Math.round(Math.abs(ms))} ms apart.`,
  show: 'Show it',
  showHint: 'To send to a student or to show: nothing leaves this device until you send it. Sound comes as slow as you chose to hear it.',
  clip: 'Save the sound (WAV)',
  square: 'Save a square picture',
  wide: 'Save a wide picture',
  kind: 'Picture as',
  png: 'PNG',
  svg: 'SVG',
  page: 'Save one page with the sound (HTML)',
  paper: 'Save one page to print (PDF)',
  saved: (name: string) => `Saved as ${name}.`,
  failed: 'That could not be made. Try again.',
};

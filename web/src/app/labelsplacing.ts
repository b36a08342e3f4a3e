/** Words of the placement check. */
export const placingLabels = {
  title: 'Does the microphone stand right? A quick check',
  how: 'Ten seconds of playing: first nothing, then your loudest strokes, your softest, and the kick. Then the click is played and listened to; leave headphones off for that.',
  withKick: 'There is a kick',
  start: 'Check it',
  again: 'Check it again',
  steps: {
    opening: 'Asking for the microphone …',
    quiet: 'Quiet, please: hearing the room',
    loudest: 'Now your loudest strokes',
    softest: 'Now your softest strokes',
    kick: 'Now the kick alone',
    click: 'Hands off: listening to the click',
  },
  said: {
    fine: 'It stands well: loud strokes are whole, soft ones stand out.',
    silent: 'Nothing was heard. Choose another microphone, or look whether it is muted.',
    clipped: 'The loudest strokes are too loud here. Move it away from the drum, or turn it aside.',
    'soft-lost': 'The softest strokes hardly stand out over the room. Move it closer, or to a quieter place.',
    'kick-lost': 'The kick is hardly heard. Move it lower, towards the kick.',
  },
  click: (ms: number) => `The click comes back after ${Math.round(ms)} ms; that is kept for this device.`,
};

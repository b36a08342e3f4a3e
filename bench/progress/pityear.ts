/** The year of an invented theatre-pit drummer: two kicks, twice. */
import type { Story } from './story.ts';

const YEAR_DAYS = 364;

export const PIT_YEAR: Story = {
  seed: 20_261_125,
  days: YEAR_DAYS,
  zone: 'Europe/Berlin',
  sessionMinutes: 12,
  freeWeekdays: [3, 7],
  phrases: [
    {
      ...{ name: 'The storm in number eleven', sticking: 'RLRLKK', cell: { first: 4, last: 5 } },
      ...{ goalBpm: 104, firstBpm: 70, referenceBpm: 84, from: 0, to: 178, ends: 'closed' },
      learnt: (day) => 34 * (1 - Math.exp(-day / 70)),
    },
    {
      ...{ name: 'Street fight, last eight', sticking: 'RLKKRLRL', cell: { first: 2, last: 3 } },
      ...{ goalBpm: 116, firstBpm: 74, referenceBpm: 88, from: 190, to: YEAR_DAYS },
      learnt: (day) => (day < 50 ? day / 6 : day < 112 ? 50 / 6 : 21),
    },
  ],
  away: [
    { from: 30, to: 38, why: 'holidays' },
    { from: 67, to: 80, why: 'ill' },
    { from: 232, to: 252, why: 'on tour' },
  ],
  byHand: [238, 245].map((day) => ({ day, minutes: 15, note: 'Pad in the hotel, doubles.' })),
  setups: [
    ['hickory, the thin pair', 'single pedal, felt beater', 0] as const,
    ['maple, a little longer', 'single pedal, felt beater', 110] as const,
    ['maple, a little longer', 'the new pedal, wood beater', 301] as const,
  ].map(([sticks, pedal, day]) => ({
    day,
    body: { sticks, drums: 'the small kit of the pit', pedal, heel: 'up', phonePlace: 'on the stand, left' },
  })),
  notes: {
    0: 'The storm falls apart from the second bar on. Let us see.',
    29: 'Last show before the holidays. Calm.',
    81: 'First time up after the flu. Slow and short, that will do.',
    110: 'Longer sticks. Odd in the left hand.',
    171: 'It held in the show, three nights running.',
    190: 'New piece, new trouble: two kicks in the middle of the street fight.',
    253: 'Home from the tour. Pads in hotel rooms are no kit.',
    301: 'New pedal. The beater comes back by itself.',
  },
};

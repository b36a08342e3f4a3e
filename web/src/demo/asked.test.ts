import { expect, test } from 'vitest';
import { DEMO_ADDRESS, demoAsked } from './asked.ts';

test.each([
  { search: '', asked: null },
  { search: '?other=demo', asked: null },
  { search: '?demo', asked: { cautionsRead: false } },
  { search: new URL(DEMO_ADDRESS, 'https://desk.example/app/').search, asked: { cautionsRead: true } },
])('$search asks for $asked', ({ search, asked }) => {
  expect(demoAsked(search)).toEqual(asked);
});

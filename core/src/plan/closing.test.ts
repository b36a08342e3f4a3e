/** What counts for closing: kept with a plan through all that becomes of it, and as before where nothing was chosen. */
import { describe, expect, it, test } from 'vitest';
import { closePlan, reopenPlan } from './checks.ts';
import { closingFamilies, withClosing } from './closing.ts';
import { makePlan } from './make.ts';
import type { PlanRequest } from './plan.ts';
import { readPlan } from './read.ts';
import { planAgain, refit } from './refit.ts';
import { PHRASE, SHELF } from './shelf.case.ts';

const REQUEST: PlanRequest = { phrase: PHRASE, goalBpm: 96, exercises: SHELF, weeks: 2, days: [1, 3, 5], minutes: 12, start: '2025-01-06' };
const plain = makePlan(REQUEST).value!;
const chosen = makePlan({ ...REQUEST, closing: ['groove', 'pad'] }).value!;

test.each([
  { given: ['groove', 'pad'], kept: ['pad', 'groove', 'use'] },
  { given: [], kept: ['use'] },
  { given: ['use', 'pad', 'pad'], kept: ['pad', 'use'] },
  { given: ['of a later version', 7, 'fill'], kept: ['fill', 'use'] },
])('$given is kept as $kept (says: issue 7, use included)', ({ given, kept }) => {
  expect(closingFamilies(given)).toEqual(kept);
});

describe('a plan in which something was chosen', () => {
  it('differs from one without in nothing else', () => {
    expect(plain).not.toHaveProperty('closing');
    expect(chosen).toEqual({ ...plain, closing: ['pad', 'groove', 'use'] });
    expect(withClosing(plain, ['groove', 'pad'])).toEqual(chosen);
    expect(withClosing(chosen, null)).toEqual(plain);
  });

  const today = '2025-01-08';
  it.each([
    { name: 'a missed day', plan: refit(chosen, { missed: [today] }).plan },
    { name: 'planning again', plan: planAgain(chosen, REQUEST, { done: ['2025-01-06'], today }).plan },
    { name: 'closing', plan: closePlan(chosen, REQUEST, { today }).plan },
    { name: 'opening again', plan: reopenPlan(chosen, REQUEST, { today }).plan },
    { name: 'a file', plan: readPlan(JSON.parse(JSON.stringify(chosen))).value! },
  ])('keeps it through $name', ({ plan }) => {
    expect(plan.closing).toEqual(['pad', 'groove', 'use']);
  });
});

it.each([
  { name: 'without the field', json: plain, closing: undefined },
  { name: 'with something else there', json: { ...plain, closing: 'pad' }, closing: undefined },
  { name: 'with an empty list', json: { ...plain, closing: [] }, closing: ['use'] },
])('a plan $name reads (docs/formats/plan.md)', ({ json, closing }) => {
  expect(readPlan(json).value!.closing).toEqual(closing);
});

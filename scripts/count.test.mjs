/** Counting what the runners report: nothing that went wrong may be counted as passed. */
import { expect, test } from 'vitest';
import { countPlaywright, countVitest, lastLine } from './count.mjs';

const file = (status, ...statuses) => ({ name: 'a.test.ts', status, assertionResults: statuses.map((each) => ({ status: each, fullName: each })) });
const spec = (status, projectName) => ({ title: status, tests: [{ status, projectName }] });
const suite = (...statuses) => ({ suites: [{ specs: statuses.map((status) => spec(status, 'built')) }] });

test.each([
  { says: 'no report', report: null, line: '0 passed, 1 failed, 0 skipped' },
  { says: 'no file', report: { success: true, testResults: [] }, line: '0 passed, 1 failed, 0 skipped' },
  {
    says: 'two files',
    report: { success: true, testResults: [file('passed', 'passed'), file('passed', 'passed', 'pending')] },
    line: '2 passed, 0 failed, 1 skipped',
  },
  { says: 'a failing test', report: { success: false, testResults: [file('failed', 'passed', 'failed')] }, line: '1 passed, 1 failed, 0 skipped' },
  { says: 'a file that cannot be loaded', report: { success: false, testResults: [file('failed')] }, line: '0 passed, 1 failed, 0 skipped' },
  { says: 'a todo', report: { success: true, testResults: [file('passed', 'todo')] }, line: '0 passed, 0 failed, 1 skipped' },
  { says: 'an error outside the tests', report: { success: false, testResults: [file('passed', 'passed')] }, line: '1 passed, 1 failed, 0 skipped' },
])('vitest, $says: $line', ({ report, line }) => {
  expect(lastLine(countVitest(report))).toBe(line);
});

test.each([
  { says: 'no report', report: null, line: '0 passed, 1 failed, 0 skipped' },
  { says: 'no test', report: { errors: [], suites: [] }, line: '0 passed, 1 failed, 0 skipped' },
  { says: 'passed and skipped', report: { errors: [], suites: [suite('expected', 'skipped')] }, line: '1 passed, 0 failed, 1 skipped' },
  {
    says: 'failed, and passed at the second try',
    report: { errors: [], suites: [suite('unexpected', 'flaky')] },
    line: '0 passed, 2 failed, 0 skipped',
  },
  {
    says: 'an error outside the tests',
    report: { errors: [{ message: 'no server' }], suites: [suite('expected')] },
    line: '1 passed, 1 failed, 0 skipped',
  },
])('Playwright, $says: $line', ({ report, line }) => {
  expect(lastLine(countPlaywright(report))).toBe(line);
});

test.each([
  { says: 'a test that fails in one', statuses: ['expected', 'unexpected'], line: '1 passed, 1 failed, 0 skipped' },
  { says: 'a test that fails in the other', statuses: ['unexpected', 'expected'], line: '1 passed, 1 failed, 0 skipped' },
  { says: 'none of one', statuses: ['expected'], line: '1 passed, 1 failed, 0 skipped' },
  { says: 'both', statuses: ['expected', 'expected'], line: '2 passed, 0 failed, 0 skipped' },
])('of two projects of Playwright, $says: $line', ({ statuses, line }) => {
  const projects = ['built', 'modules'];
  const specs = statuses.map((status, k) => spec(status, projects[k]));
  expect(lastLine(countPlaywright({ errors: [], suites: [{ specs }] }, projects))).toBe(line);
});

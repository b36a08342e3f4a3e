/** Reads what the test runners report and counts it; a runner that ran nothing has failed. */

/**
 * @typedef {{ passed: number, failed: number, skipped: number, notes: string[] }} Count
 * `notes` name what failed or was skipped, one line each.
 */

/** @type {Count} */
export const nothing = { passed: 0, failed: 0, skipped: 0, notes: [] };

/** @param {readonly Count[]} counts */
export const sum = (counts) =>
  counts.reduce(
    (total, count) => ({
      passed: total.passed + count.passed,
      failed: total.failed + count.failed,
      skipped: total.skipped + count.skipped,
      notes: [...total.notes, ...count.notes],
    }),
    nothing,
  );

export const passed = () => ({ ...nothing, passed: 1 });
export const failed = (note) => ({ ...nothing, failed: 1, notes: [`failed: ${note}`] });
export const skipped = (note) => ({ ...nothing, skipped: 1, notes: [`skipped: ${note}`] });

/** The last line of `npm test`. */
export const lastLine = (count) => `${count.passed} passed, ${count.failed} failed, ${count.skipped} skipped`;

/**
 * @param {{ success: boolean, testResults: { name: string, status: string, message?: string, assertionResults: { status: string, fullName: string }[] }[] } | null} report
 *   vitest's JSON report; null when it wrote none.
 * @returns {Count}
 */
export function countVitest(report) {
  if (!report || report.testResults.length === 0) return failed('vitest ran no test');
  const tests = report.testResults.flatMap((file) => file.assertionResults.map((test) => ofStatus(test.status, test.fullName)));
  const broken = report.testResults
    .filter((file) => file.status === 'failed' && !file.assertionResults.some(({ status }) => status === 'failed'))
    .map((file) => failed(`${file.name} could not be run: ${file.message ?? ''}`));
  const count = sum([...tests, ...broken]);
  return report.success || count.failed > 0 ? count : sum([count, failed('vitest ended with an error outside the tests')]);
}

function ofStatus(status, name) {
  if (status === 'passed') return passed();
  return status === 'failed' ? failed(name) : skipped(name);
}

/**
 * @param {{ errors: { message?: string }[], suites: object[] } | null} report Playwright's JSON report; null when it wrote none.
 * @param {readonly string[]} projects those of which at least one test must have run; default any.
 * @returns {Count} a test that passed only when tried again counts as failed.
 */
export function countPlaywright(report, projects = []) {
  const specs = report ? report.suites.flatMap(specsOf) : [];
  const errors = (report?.errors ?? []).map((error) => failed(`Playwright: ${error.message ?? 'an error'}`));
  if (specs.length === 0) return sum([failed('Playwright ran no test'), ...errors]);
  const tests = specs.flatMap((spec) => spec.tests.map(({ status, projectName }) => ({ status, projectName, title: spec.title })));
  const missing = projects.filter((project) => !tests.some(({ projectName }) => projectName === project));
  const without = missing.map((project) => failed(`Playwright ran no test of “${project}”`));
  return sum([...tests.map(({ status, title }) => ofOutcome(status, title)), ...without, ...errors]);
}

const specsOf = (suite) => [...(suite.specs ?? []), ...(suite.suites ?? []).flatMap(specsOf)];

function ofOutcome(status, title) {
  if (status === 'expected') return passed();
  return status === 'skipped' ? skipped(title) : failed(`${title} (${status})`);
}

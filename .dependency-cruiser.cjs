/**
 * The line of imports (ARCHITECTURE.md), held by `npx depcruise`. Each rule says what it means and what to do.
 */
const ground = ['units', 'errors', 'problem', 'rational', 'random', 'day', 'csv', 'markup', 'quantiles'];
const ear = ['signal', 'take', 'stroke', 'song'];
const page = ['sticking', 'kit', 'exercise', 'sheet', 'sound', 'player'];
const after = ['measurement', 'finding', 'tempo', 'session', 'diary', 'progress', 'plan', 'words', 'picture'];

const stage = (names) => `^core/src/(${names.join('|')})/`;
const file = (names) => `^core/src/(${names.join('|')})\\.ts$`;

/** A stage may import only what stands to its left. */
const leftOnly = (name, later) => ({
  name: `${name}-looks-left`,
  comment: `The stage "${name}" may import only stages to its left. If it needs a type from the right, the type belongs further left, or the app converts.`,
  severity: 'error',
  from: { path: stage([name]), pathNot: '\\.(test|case)\\.ts$' },
  to: { path: stage(later) },
});

const rulesOf = (line, right) =>
  line.map((name, i) => leftOnly(name, [...line.slice(i + 1), ...right])).filter((rule) => !rule.to.path.includes('()'));

module.exports = {
  forbidden: [
    ...rulesOf(ear, [...page, ...after]),
    ...rulesOf(page, [...ear, ...after]),
    ...rulesOf(after, []),
    {
      name: 'ground-stands-alone',
      comment:
        'units, errors, problem, rational, random, day, csv, markup and quantiles are the ground under every stage: they import nothing but each other.',
      severity: 'error',
      from: { path: file(ground) },
      to: { pathNot: file(ground) },
    },
    {
      name: 'one-door',
      comment: 'Other stages and the apps import a stage through its index.ts. Export what you need there, or ask whether you need it.',
      severity: 'error',
      from: { path: '^(core/src/([^/]+)/|adapters/|cli/|web/)', pathNot: '\\.(test|case)\\.ts$' },
      to: { path: '^core/src/([^/]+)/', pathNot: ['^core/src/[^/]+/index\\.ts$', '^core/src/$2/'] },
    },
    {
      name: 'not-through-your-own-door',
      comment: 'Inside a stage import the file itself: going through the own index.ts makes a circle.',
      severity: 'error',
      from: { path: '^core/src/([^/]+)/.+', pathNot: '\\.(test|case)\\.ts$' },
      to: { path: '^core/src/$1/index\\.ts$' },
    },
    {
      name: 'core-is-pure',
      comment: 'The core has no device: no Node built-ins and no packages beyond those with a decision note.',
      severity: 'error',
      from: { path: '^core/src/', pathNot: '\\.(test|case)\\.ts$' },
      to: { pathNot: ['^core/src/', 'node_modules/(fft\\.js|vexflow|midi-file|@noble/hashes|d3-scale|d3-shape|@types/d3-scale|@types/d3-shape)/'] },
    },
    {
      name: 'core-knows-no-app',
      comment: 'cli and web import the core and the adapters, never the other way round, and never each other.',
      severity: 'error',
      from: { path: '^(core|adapters|cli|web)/' },
      to: { path: '^(cli|web)/', pathNot: '^$1/' },
    },
    {
      name: 'core-knows-no-adapter',
      comment: 'The adapters stand between the core and the apps. What the core needs belongs into the core, or is handed in.',
      severity: 'error',
      from: { path: '^core/src/' },
      to: { path: '^adapters/' },
    },
    {
      name: 'adapters-run-everywhere',
      comment: 'The same adapter serves Node and the browser: no Node built-ins, unless the name of the file says that it is for Node.',
      severity: 'error',
      from: { path: '^adapters/src/', pathNot: ['\\.(test|case)\\.ts$', '-node\\.ts$'] },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'adapters-have-doors',
      comment: 'Import a folder of the adapters through its index.ts; only base64.ts, joined.ts and utf8.ts are for all of them.',
      severity: 'error',
      from: { path: '^(adapters/src/([^/]+)/|cli/|web/)', pathNot: '\\.(test|case)\\.ts$' },
      to: { path: '^adapters/src/([^/]+)/', pathNot: ['^adapters/src/[^/]+/index\\.ts$', '^adapters/src/$2/'] },
    },
    {
      name: 'no-circles',
      comment: 'Two files that import each other are one thing cut in the wrong place.',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    {
      name: 'no-orphans',
      comment: 'Nothing imports this file: dead code, or a door that forgot it.',
      severity: 'error',
      from: { orphan: true, path: '^(core|adapters|cli|web)/src/', pathNot: '\\.d\\.ts$' },
      to: {},
    },
    {
      name: 'only-what-is-declared',
      comment: 'A package must stand in the package.json of the workspace that imports it.',
      severity: 'error',
      from: { path: '^(core|adapters|cli|web)/src/', pathNot: '\\.(test|case)\\.ts$' },
      to: { dependencyTypes: ['npm-no-pkg', 'npm-unknown', 'npm-dev'] },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.base.json' },
    doNotFollow: { path: 'node_modules' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'types', 'default'] },
  },
};

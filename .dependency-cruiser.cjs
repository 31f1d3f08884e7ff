/**
 * The arrows of the architecture: every folder may import itself and what stands before it, types included.
 * `demo` sits between the rooms that compute and the doors (store, server, cli, web).
 */
const order = ['units', 'engineering', 'model', 'assess', ['logs', 'plan', 'book'], 'store', 'server', 'cli']
const flat = (entry) => (Array.isArray(entry) ? entry : [entry])
const path = (names) => `^src/(${names.join('|')})/`

const backOnly = order.slice(0, -1).map((entry, index) => ({
  name: `${flat(entry).join('-')}-imports-back-only`,
  comment: `src/${flat(entry).join(', src/')} may import only what stands before it in ${order.flat().join(' → ')}.`,
  severity: 'error',
  from: { path: path(flat(entry)) },
  to: { path: `^src/(${[...order.slice(index + 1).flatMap(flat), 'web'].join('|')})/` },
}))

module.exports = {
  forbidden: [
    ...backOnly,
    {
      name: 'only-the-command-knows-the-demo',
      comment: 'The demo is a build like any other: only the command makes it, and tests use it.',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/cli/|\\.test\\.tsx?$' },
      to: { path: '^demo/' },
    },
    {
      name: 'the-demo-knows-the-model',
      comment: 'demo/ imports units and model: it writes a build, it computes nothing.',
      severity: 'error',
      from: { path: '^demo/', pathNot: '\\.test\\.ts$' },
      to: { path: '^src/', pathNot: '^src/(units|model)/' },
    },
    {
      name: 'engineering-knows-numbers-not-builds',
      comment: 'src/engineering imports only src/units and itself, and numerics beneath it.',
      severity: 'error',
      from: { path: '^src/engineering/' },
      to: { path: '^src/', pathNot: '^src/(units|engineering)/' },
    },
    {
      name: 'browser-rooms-know-no-machine',
      comment: 'units, engineering, model and assess run unchanged in the browser: no node: module, no native package.',
      severity: 'error',
      from: { path: '^src/(units|engineering|model|assess|web)/', pathNot: '\\.test\\.tsx?$|\\.page\\.ts$' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'web-asks-the-server',
      comment: 'src/web may import the rooms that run in a browser, and types of the server routes; never the store.',
      severity: 'error',
      from: { path: '^src/web/' },
      to: { path: '^(src/(store|cli|logs)/|demo/)' },
    },
    { name: 'sources-know-no-tests', severity: 'error', from: { path: '^src/', pathNot: '\\.test\\.tsx?$' }, to: { path: '\\.test\\.tsx?$|^test/|^bench/' } },
    { name: 'no-cycles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'not-resolvable',
      comment: 'A file asked for by address (?url) is resolved by the bundler, which fails the build where there is none.',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true, pathNot: '\\?url$' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'require', 'node', 'default'] },
  },
}

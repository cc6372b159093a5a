/**
 * The arrows of the house (DEVELOPERS.md, "The rooms"), as rules that fail the build. Every core room may import base;
 * the table says what else. Rooms import each other only through their index.
 */
const ROOMS = {
  base: [],
  book: [],
  page: [],
  type: [],
  manuscript: ['book', 'design'],
  project: ['book', 'design'],
  design: ['book'],
  paragraph: ['book', 'design', 'type', 'page'],
  makeup: ['book', 'design', 'type', 'paragraph', 'page'],
  print: ['page', 'type', 'design'],
  ebook: ['book', 'design'],
  preflight: ['book', 'design', 'page', 'print', 'ebook'],
  host: ['book'],
  engine: Object.freeze(['*']),
};

/** Libraries that each room may use. */
const LIBRARIES = {
  base: ['@noble/hashes'],
  book: ['prosemirror-model', 'prosemirror-transform', 'isbn3'],
  manuscript: ['prosemirror-model', 'saxes', 'fflate'],
  project: ['prosemirror-model', 'fflate'],
  type: ['harfbuzzjs', 'hyphen'],
  paragraph: ['prosemirror-model', '@cto\\.af/linebreak', 'bidi-js'],
  makeup: ['prosemirror-model'],
  print: ['fast-png'],
  ebook: ['prosemirror-model'],
  preflight: ['prosemirror-model'],
  host: ['valibot', '@msgpack/msgpack'],
  engine: ['prosemirror-model'],
};

const anyOf = (names) => `(${names.join('|')})`;

const roomRules = Object.entries(ROOMS)
  .filter(([, may]) => !may.includes('*'))
  .map(([room, may]) => ({
    name: `arrows-of-${room}`,
    severity: 'error',
    from: { path: `^core/${room}/` },
    to: { path: '^core/', pathNot: `^core/${anyOf([room, 'base', ...may])}/` },
  }));

const libraryRules = Object.keys(ROOMS).map((room) => ({
  name: `libraries-of-${room}`,
  severity: 'error',
  from: { path: `^core/${room}/` },
  to: {
    path: 'node_modules/',
    ...(LIBRARIES[room] ? { pathNot: `node_modules/${anyOf(LIBRARIES[room])}/` } : {}),
  },
}));

export default {
  forbidden: [
    { name: 'no-cycles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'core-knows-no-node',
      severity: 'error',
      from: { path: '^core/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'core-knows-no-shell',
      severity: 'error',
      from: { path: '^core/' },
      to: { path: '^(electron|renderer|test)/' },
    },
    {
      name: 'electron-and-renderer-apart',
      severity: 'error',
      from: { path: '^electron/' },
      to: { path: '^renderer/' },
    },
    {
      name: 'renderer-and-electron-apart',
      severity: 'error',
      from: { path: '^renderer/' },
      to: { path: '^electron/' },
    },
    {
      name: 'rooms-by-their-index',
      severity: 'error',
      from: { path: '^core/([^/]+)/' },
      to: { path: '^core/([^/]+)/', pathNot: '^core/($1/|base/assembly/|[^/]+/index\\.ts$)' },
    },
    {
      // The kernels have a memory of one kind; nothing else is compiled with it.
      name: 'assembly-for-kernels-alone',
      severity: 'error',
      from: { pathNot: '/assembly/' },
      to: { path: '/assembly/' },
    },
    {
      name: 'engine-only-from-shells',
      severity: 'error',
      from: { path: '^core/', pathNot: '^core/engine/' },
      to: { path: '^core/engine/' },
    },
    { name: 'nothing-unresolved', severity: 'error', from: {}, to: { couldNotResolve: true } },
    ...roomRules,
    ...libraryRules,
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'node', 'default', 'types'] },
  },
};

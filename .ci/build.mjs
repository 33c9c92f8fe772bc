// Builds the program: node .ci/build.mjs [FOLDER]; the folder is dist/ where none is named.
//
//   main.js        starts it (source/platform/start.ts)
//   program.js     reads the command line
//   COMMAND.js     each command; flags.js, what takes flags apart
//   open.js        the workbench up to its first frame; it starts by itself where there are no flags
//   attend.js      and the like: what the workbench needs after that; they share the code of open.js
//   common-a.js    what two of these share beyond that
//   screen.js      the components, with Ink and React; loaded when the workbench has come to rest
//   *-worker.js    threads
//   *.js.cache     what V8 compiles of a script, for quick starts; see source/platform/code-cache.ts
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { play } from './play.mjs';

const root = fileURLToPath(new URL('../', import.meta.url));
const folder = resolve(process.argv[2] ?? join(root, 'dist'));

/** Replaces each text, which must be there exactly once: another version of a package ends the build. */
function patched(path, ...changes) {
  let text = readFileSync(path, 'utf8');
  for (const [from, to] of changes) {
    if (text.split(from).length !== 2) throw new Error(`${path} has no single ${from}`);
    text = text.replace(from, to);
  }
  return { contents: text, loader: 'js' };
}

/** The signs that the bundler leaves as they are, in regular expressions, as escapes: these mean the same there. */
const inAscii = (text) =>
  text.replace(/[^\0-\x7f]/g, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`);

/** The scripts that program.js asks for, by name. */
const scripts = new Map();

const fit = {
  name: 'fit',
  setup({ onLoad, onResolve }) {
    onResolve({ filter: /^\.{1,2}\/.*\.tsx?$/ }, ({ kind, path, importer, resolveDir }) => {
      if (kind !== 'dynamic-import') return undefined;
      if (path.endsWith('/components/mount.tsx')) return { path: './screen.js', external: true };
      // What is passed between scripts may be no class with private parts, which each of them has its own of.
      if (!/\/commands\/(?:\w+-)?(?:catalogue|parse|open|config)\.ts$/.test(importer)) return undefined;
      if (path === './nearest.ts') return undefined;
      const name = basename(path, '.ts');
      const file = join(resolveDir, path);
      if ((scripts.get(name) ?? file) !== file)
        throw new Error(`${file} and ${scripts.get(name)} are both ${name}.js`);
      if (name !== 'open') scripts.set(name, file);
      return { path: `./${name}.js`, external: true };
    });
    // CommonJS cannot wait at the top of a module. Ink waits there only for its debugger, which is left out,
    onLoad({ filter: /\/ink\/build\/reconciler\.js$/ }, ({ path }) =>
      patched(path, ["await import('./devtools.js')", ''], ['await loadPackageJson()', '{}']),
    );
    // and for its layout engine; the stand-in is filled in when `ready` is.
    onLoad({ filter: /\/yoga-layout\/dist\/src\/index\.js$/ }, () => ({
      contents: `import { loadYoga } from './load.js';
        const yoga = {};
        export default yoga;
        export const ready = loadYoga().then((loaded) => Object.assign(yoga, loaded));`,
      loader: 'js',
    }));
    // It asks for the working directory when it is loaded, to shorten paths; there may be none any more.
    onLoad({ filter: /\/ink\/build\/components\/ErrorOverview\.js$/ }, ({ path }) =>
      patched(path, ['cwd: cwd(),', "cwd: '/',"]),
    );
    onLoad({ filter: /\/stack-utils\/index\.js$/ }, ({ path }) => patched(path, ['process.cwd()', "'/'"]));
  },
};

const options = {
  absWorkingDir: root,
  outdir: folder,
  bundle: true,
  minify: true,
  format: 'cjs',
  platform: 'node',
  target: 'node20',
  charset: 'ascii',
  supported: { 'dynamic-import': false },
  alias: { 'is-in-ci': './source/terminal/not-in-ci.ts' },
  define: {
    fetch: 'undefined',
    'import.meta': 'importMeta',
    'process.env.NODE_ENV': '"production"',
    'process.env.DEV': '"false"',
  },
  plugins: [fit],
  logLevel: 'warning',
};
const placed = {
  js: 'const importMeta={get url(){return require("node:url").pathToFileURL(__filename).href}};',
};

/** Only the screen waits for the layout engine. */
const screen = `
  import { ready } from 'yoga-layout';
  import * as components from './source/terminal/components/mount.tsx';
  export const mountWorkbench = (...given) => ready.then(() => components.mountWorkbench(...given));`;

/**
 * A script and, each by itself, what it loads later, without a line twice: code that it shares with these is in the
 * first script, and they take it from there; what only some of these share is a script of its own. So classes and
 * tables are the same in all of them.
 */
async function buildParts(entry) {
  const { outputFiles, metafile } = await build({
    ...options,
    format: 'esm',
    minify: false,
    splitting: true,
    supported: {},
    chunkNames: '[name]-[hash]',
    entryPoints: [entry],
    metafile: true,
    write: false,
  });
  const texts = new Map(outputFiles.map(({ path, text }) => [basename(path), text]));
  const outputs = new Map(Object.entries(metafile.outputs).map(([path, output]) => [basename(path), output]));
  const first = `${basename(entry, '.ts')}.js`;
  /** An output and all that is loaded with it. */
  const withImports = (entry) => {
    const all = new Set([entry]);
    for (const name of all) {
      for (const { path, kind } of outputs.get(name).imports) {
        if (kind === 'import-statement' && outputs.has(basename(path))) all.add(basename(path));
      }
    }
    return all;
  };
  const eager = withImports(first);
  const shared = [...eager].filter((name) => name !== first);
  const later = [...outputs.keys()].filter((name) => name !== first && outputs.get(name).entryPoint);
  const lateUses = later.flatMap((entry) => [...withImports(entry)]).filter((name) => !eager.has(name));
  const common = [...new Set(lateUses.filter((name, at) => lateUses.indexOf(name) !== at))];
  const nameIn = (name) =>
    common.includes(name) && !later.includes(name)
      ? `common-${String.fromCharCode(97 + common.indexOf(name))}.js`
      : name.replace(/-[A-Z0-9]{8}(?=\.js$)/, '');
  const bundled = async (name, contents) => {
    const isFirst = name === first;
    const { outputFiles: built } = await build({
      ...options,
      banner: placed,
      plugins: [
        {
          name: 'parts',
          setup({ onLoad, onResolve }) {
            onResolve({ filter: /^\.\// }, ({ path, kind }) => {
              const other = basename(path);
              if (!texts.has(other)) return { path, external: true };
              if (kind !== 'import-statement' || common.includes(other)) {
                return { path: `./${nameIn(other)}`, external: true };
              }
              return { path: other, namespace: isFirst || !eager.has(other) ? 'part' : 'shared' };
            });
            onLoad({ filter: /.*/, namespace: 'part' }, ({ path }) => ({
              contents: texts.get(path),
              loader: 'js',
            }));
            onLoad({ filter: /.*/, namespace: 'shared' }, ({ path }) => ({
              contents: `module.exports = require('./${first}').part${shared.indexOf(path)}()`,
              loader: 'js',
            }));
          },
        },
      ],
      outdir: undefined,
      outfile: join(folder, nameIn(name)),
      stdin: { contents, resolveDir: folder },
      write: false,
    });
    return [nameIn(name), built[0].text];
  };
  // Made when they are asked for: the first script would wait for so many getters.
  const handedOut = shared.map((name, index) => {
    const names = outputs.get(name).exports;
    const taken = names.map((each, at) => `${each} as p${index}_${at}`);
    const getters = names.map((each, at) => `get ${each}() { return p${index}_${at}; }`);
    return `import { ${taken} } from './${name}'; export const part${index} = () => ({ ${getters} });`;
  });
  return Promise.all([
    bundled(first, [`export * from './${first}';`, ...handedOut].join('\n')),
    ...[...new Set([...later, ...common])].map((name) => bundled(name, texts.get(name))),
  ]);
}

mkdirSync(folder, { recursive: true });
writeFileSync(join(folder, 'package.json'), '{ "type": "commonjs" }\n');
await build({ ...options, entryPoints: ['source/commands/*-worker.ts'] });
await build({ ...options, entryPoints: { program: 'source/main.ts' }, banner: placed });
const parts = [];
for (const [name, contents] of await buildParts('source/commands/open.ts')) {
  writeFileSync(join(folder, name), contents);
  parts.push(basename(name, '.js'));
}
// A script may ask for others in turn.
for (let built = 0; built < scripts.size; ) {
  const fresh = [...scripts].slice(built);
  built = scripts.size;
  await build({ ...options, entryPoints: Object.fromEntries(fresh), banner: placed });
}
const { metafile } = await build({
  ...options,
  metafile: true,
  outdir: undefined,
  outfile: join(folder, 'screen.js'),
  stdin: { contents: screen, resolveDir: root },
  banner: placed,
});
// The two scripts share no classes: what one of them has made would be strange to the other.
const [{ inputs }] = Object.values(metafile.outputs);
for (const [path, { bytesInOutput }] of Object.entries(inputs)) {
  if (bytesInOutput > 0 && /^source\/(?!terminal\/|text\/)/.test(path))
    throw new Error(`screen.js contains ${path}`);
}
await build({ ...options, entryPoints: { main: 'source/platform/start.ts' } });
const names = ['program', 'screen', ...parts, ...scripts.keys()];
const twice = names.find((name, at) => name === 'main' || names.indexOf(name) !== at);
if (twice !== undefined) throw new Error(`two scripts are called ${twice}.js`);
// Each script says in its first line of which build it is, and which it is there: its compiled code goes by that. The
// rest is one function, as source/platform/code-cache.ts runs it.
const hashOf = (text) => createHash('sha256').update(text).digest('hex').slice(0, 8);
const bodies = names.map((name) => inAscii(readFileSync(join(folder, `${name}.js`), 'utf8')));
const buildHash = hashOf(bodies.join('\n'));
for (const [at, name] of names.entries()) {
  const text = `(function(exports,require,module,__filename){${bodies[at]}\n})`;
  writeFileSync(join(folder, `${name}.js`), `//${buildHash}${hashOf(bodies[at])}\n${text}`);
}
try {
  await play(join(folder, 'main.js'));
} catch (error) {
  // The program is built; what is missing is made when it first runs.
  console.warn(`compiled code could not be kept: ${error instanceof Error ? error.message : error}`);
}

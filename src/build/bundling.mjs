/** How a program of ours is bundled: split by command, minified, with React in production. */
import { fileURLToPath } from 'node:url';

export const bundling = {
  outExtension: { '.js': '.mjs' },
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  minify: true,
  // Only loaded by Ink when DEV is set, and never installed.
  external: ['react-devtools-core'],
  // The same parser as ES modules: what is not called is left out, and the rest is loaded faster.
  alias: {
    yaml: fileURLToPath(new URL('../../node_modules/yaml/browser/dist/index.js', import.meta.url)),
  },
  define: { 'process.env.NODE_ENV': '"production"' },
  // The names must be unusual: the minifier picks short ones itself.
  banner: {
    js: "import{createRequire as __tarebookRequire}from'node:module';const require=__tarebookRequire(import.meta.url);",
  },
  logLevel: 'warning',
};

/** How each file of the program is bundled: CommonJS, minified, with React in production. */
import { fileURLToPath } from 'node:url';

export const bundling = {
  outExtension: { '.js': '.cjs' },
  bundle: true,
  format: 'cjs',
  platform: 'node',
  target: 'node20',
  minify: true,
  // What is loaded later is a part of the same file, or another file that the launcher loads.
  supported: { 'dynamic-import': false },
  // The same parser as ES modules: what is not called is left out, and the rest is loaded faster.
  alias: {
    yaml: fileURLToPath(new URL('../../node_modules/yaml/browser/dist/index.js', import.meta.url)),
  },
  define: { 'process.env.NODE_ENV': '"production"', 'import.meta.dirname': '__dirname' },
  logLevel: 'warning',
};

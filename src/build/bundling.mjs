/** How the program is bundled: split by command, minified, with React in production. */
import { fileURLToPath } from 'node:url';

export const bundling = {
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  minify: true,
  // The same parser as ES modules: what is not called is left out, and the rest is loaded faster.
  alias: {
    yaml: fileURLToPath(new URL('../../node_modules/yaml/browser/dist/index.js', import.meta.url)),
  },
  define: { 'process.env.NODE_ENV': '"production"' },
  logLevel: 'warning',
};

/**
 * Ink as CommonJS, the only format for which code can be made ahead. Its modules await twice at their top
 * level: for React's developer tools, which are left out, and for the layout engine, whose WebAssembly is
 * compiled at once instead; that takes two milliseconds.
 */
import { readFileSync } from 'node:fs';
import { dirname } from 'node:path';

const bytes = /"data:application\/octet-stream;base64,([^"]+)"/;

// A module that is not as expected stops the build instead of making something else of it.
const textOf = (path, part) => {
  const text = readFileSync(path, 'utf8');
  if (text.search(part) === -1) throw new Error(`${path} has changed: see ink-at-once.mjs.`);
  return text;
};

const layout = `
import prepare from '../binaries/yoga-wasm-base64-esm.js';
import wrapAssembly from './wrapAssembly.js';
import bytes from 'layout-bytes';
const instantiateWasm = (imports, take) => {
  const instance = new WebAssembly.Instance(new WebAssembly.Module(Buffer.from(bytes, 'base64')), imports);
  take(instance);
  return instance.exports;
};
const engine = { instantiateWasm };
prepare(engine);
export default wrapAssembly(engine);
export * from './generated/YGEnums.js';
`;

export const inkAtOnce = {
  name: 'ink-at-once',
  setup: ({ onLoad, onResolve, resolve }) => {
    onLoad({ filter: /\/ink\/build\/reconciler\.js$/ }, ({ path }) => ({
      contents: textOf(path, /isDev\(\)/).replaceAll('isDev()', 'false'),
    }));
    onLoad({ filter: /\/yoga-layout\/dist\/src\/index\.js$/ }, ({ path }) => {
      textOf(path, /wrapAssembly\(await loadYoga\(\)\)/);
      return { contents: layout, resolveDir: dirname(path) };
    });
    onLoad({ filter: /\/yoga-wasm-base64-esm\.js$/, namespace: 'file' }, ({ path }) => ({
      contents: textOf(path, bytes).replace(bytes, '""'),
    }));
    onResolve({ filter: /^layout-bytes$/ }, async ({ resolveDir }) => {
      const found = await resolve('../binaries/yoga-wasm-base64-esm.js', {
        kind: 'import-statement',
        resolveDir,
      });
      return { path: found.path, namespace: 'layout-bytes' };
    });
    onLoad({ filter: /.*/, namespace: 'layout-bytes' }, ({ path }) => ({
      contents: bytes.exec(textOf(path, bytes))[1],
      loader: 'text',
    }));
  },
};

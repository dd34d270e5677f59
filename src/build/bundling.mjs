/** How a program of ours is bundled: split by command, minified, with React in production. */
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
  define: { 'process.env.NODE_ENV': '"production"' },
  // The names must be unusual: the minifier picks short ones itself.
  banner: {
    js: "import{createRequire as __tarebookRequire}from'node:module';const require=__tarebookRequire(import.meta.url);",
  },
  logLevel: 'warning',
};

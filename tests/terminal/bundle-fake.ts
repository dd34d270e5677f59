import { join } from 'node:path';
import { build } from 'esbuild';

/** Bundles a test program as the real one is; answers its path. */
export const bundleProgram = async (source: string, folder: string): Promise<string> => {
  await build({
    entryPoints: { program: source },
    outdir: folder,
    outExtension: { '.js': '.mjs' },
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    external: ['react-devtools-core'],
    define: { 'process.env.NODE_ENV': '"production"', TAREBOOK_VERSION: '"0"' },
    banner: {
      js: "import{createRequire as __testRequire}from'node:module';const require=__testRequire(import.meta.url);",
    },
    logLevel: 'warning',
  });
  return join(folder, 'program.mjs');
};

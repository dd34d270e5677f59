/**
 * Commander without the starting of other programs, which it does for commands that are files of their own.
 * There are none here, and loading what starts programs takes Node a tenth of a whole start.
 */
export const commanderAlone = {
  name: 'commander-alone',
  setup: ({ onLoad, onResolve }) => {
    onResolve({ filter: /^node:child_process$/ }, ({ importer }) =>
      importer.endsWith('/commander/lib/command.js')
        ? { path: 'no-child-process', namespace: 'commander-alone' }
        : undefined,
    );
    onLoad({ filter: /.*/, namespace: 'commander-alone' }, () => ({ contents: '' }));
  },
};

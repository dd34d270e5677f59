import { Box } from 'ink';
import { type ReactNode, useSyncExternalStore } from 'react';
import type { HomeChoice, HomeModel } from '../core/dialogue/home.ts';
import { type Cell, createCell } from './cell.ts';
import { silentStdin } from './feed.ts';
import { firstHome, type HomeState, pressAtHome } from './home-state.ts';
import { RowsView } from './row-view.tsx';
import {
  onTerminal,
  type Stage,
  type StopSignal,
  sizeOf,
  type TerminalOptions,
} from './terminal.ts';
import { homeRows } from './view/home-rows.ts';
import { paperOf } from './view/paper.ts';

export interface HomeOptions extends TerminalOptions {
  readonly isAscii: boolean;
  readonly hasColour: boolean;
}

export type HomeEnd =
  | { readonly kind: 'chosen'; readonly choice: HomeChoice }
  | { readonly kind: 'interrupted' }
  | { readonly kind: 'signal'; readonly signal: StopSignal }
  | { readonly kind: 'fault'; readonly fault: unknown };

const someTime = { epochMs: 0, offset: 0 };

const HomeView = ({
  model,
  cell,
  options,
}: {
  readonly model: HomeModel;
  readonly cell: Cell<HomeState>;
  readonly options: Pick<HomeOptions, 'isAscii' | 'hasColour'>;
}): ReactNode => {
  const state = useSyncExternalStore(cell.subscribe, cell.state);
  const paper = paperOf(state.size, options.isAscii, someTime);
  return (
    <Box flexDirection="column" width={paper.columns} height={paper.rows} overflow="hidden">
      <RowsView rows={homeRows(model, state, paper)} hasColour={options.hasColour} />
    </Box>
  );
};

const stageFor =
  (model: HomeModel, options: HomeOptions) =>
  (finish: (end: HomeEnd) => void): Stage<HomeEnd> => {
    const cell = createCell(firstHome(sizeOf(options.stdout)));
    return {
      element: <HomeView model={model} cell={cell} options={options} />,
      inkStdin: silentStdin(),
      onKeys: keys => {
        for (const key of keys) {
          if (key.kind === 'ctrl' && key.letter === 'c') return finish({ kind: 'interrupted' });
          const { state, choice } = pressAtHome(model, cell.state(), key);
          if (choice !== undefined) return finish({ kind: 'chosen', choice });
          cell.set(state);
        }
      },
      onResize: size => cell.set({ size }),
      onRender: () => undefined,
      onSignal: signal => ({ kind: 'signal', signal }),
      onFault: fault => ({ kind: 'fault', fault }),
    };
  };

/** Shows what is here and answers what was chosen. Both ends must be terminals. */
export const startHome = (model: HomeModel, options: HomeOptions): Promise<HomeEnd> =>
  onTerminal(options, stageFor(model, options));

import { Box } from 'ink';
import { type ReactNode, useSyncExternalStore } from 'react';
import type { HomeChoice, HomeModel } from '../core/dialogue/home.ts';
import { Boundary } from './boundary.tsx';
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

interface HomeStore {
  readonly state: () => HomeState;
  readonly set: (state: HomeState) => void;
  readonly subscribe: (listener: () => void) => () => void;
}

const createHomeStore = (first: HomeState): HomeStore => {
  const listeners = new Set<() => void>();
  let state = first;
  return {
    state: () => state,
    set: next => {
      state = next;
      for (const listener of listeners) listener();
    },
    subscribe: listener => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
};

const someTime = { epochMs: 0, offset: 0 };

const HomeView = ({
  model,
  store,
  options,
}: {
  readonly model: HomeModel;
  readonly store: HomeStore;
  readonly options: Pick<HomeOptions, 'isAscii' | 'hasColour'>;
}): ReactNode => {
  const state = useSyncExternalStore(store.subscribe, store.state);
  const paper = paperOf(state.size, options.isAscii, someTime);
  return (
    <Box flexDirection="column" width={paper.columns} height={paper.rows} overflow="hidden">
      <RowsView rows={homeRows(model, state, paper)} hasColour={options.hasColour} />
    </Box>
  );
};

const onFault = (fault: unknown): HomeEnd => ({ kind: 'fault', fault });

const stageFor =
  (model: HomeModel, options: HomeOptions) =>
  (finish: (end: HomeEnd) => void): Stage<HomeEnd> => {
    const store = createHomeStore(firstHome(sizeOf(options.stdout)));
    return {
      element: (
        <Boundary onFault={fault => finish(onFault(fault))}>
          <HomeView model={model} store={store} options={options} />
        </Boundary>
      ),
      inkStdin: silentStdin(),
      onKeys: keys => {
        for (const key of keys) {
          if (key.kind === 'ctrl' && key.letter === 'c') return finish({ kind: 'interrupted' });
          const { state, choice } = pressAtHome(model, store.state(), key);
          if (choice !== undefined) return finish({ kind: 'chosen', choice });
          store.set(state);
        }
      },
      onResize: size => store.set({ ...store.state(), size }),
      onRender: () => undefined,
      onSignal: signal => ({ kind: 'signal', signal }),
      onFault,
    };
  };

/** Shows what is here and answers what was chosen. Both ends must be terminals. */
export const startHome = (model: HomeModel, options: HomeOptions): Promise<HomeEnd> =>
  onTerminal(options, stageFor(model, options));

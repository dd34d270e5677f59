import { Box } from 'ink';
import { type ReactNode, useInsertionEffect, useSyncExternalStore } from 'react';
import type { Question } from '../core/dialogue/conversation.ts';
import type { Instant } from '../core/time/instant.ts';
import type { Feed } from './feed.ts';
import { FieldView } from './field-view.tsx';
import { RowsView } from './row-view.tsx';
import type { ScreenState, ScreenStore } from './screen-store.ts';
import { useHoldClock } from './use-hold-clock.ts';
import { type Frame, layOut } from './view/frame.ts';
import { helpRows } from './view/help.ts';
import { type Paper, paperOf } from './view/paper.ts';
import { isTooSmall, tooSmallRows } from './view/too-small.ts';

interface Looks {
  readonly isAscii: boolean;
  readonly hasColour: boolean;
  readonly now: () => Instant;
  readonly ring: () => void;
}

export interface ScreenProps {
  readonly store: ScreenStore;
  readonly feed: Feed;
  readonly looks: Looks;
  /** Called when a question was rendered with its field. */
  readonly onShown: (question: Question) => void;
}

type Face =
  | { readonly kind: 'work'; readonly frame: Frame }
  | { readonly kind: 'rows'; readonly rows: ReturnType<typeof helpRows> };

const faceOf = (state: ScreenState, paper: Paper): Face => {
  const { size, help } = state;
  if (isTooSmall(size.columns, size.rows)) {
    return { kind: 'rows', rows: tooSmallRows(state, size.columns, paper) };
  }
  if (help === undefined) return { kind: 'work', frame: layOut(state, paper) };
  return { kind: 'rows', rows: helpRows(state, help, paper) };
};

export const ScreenView = ({ store, feed, looks, onShown }: ScreenProps): ReactNode => {
  const state = useSyncExternalStore(store.subscribe, store.state);
  useHoldClock(store, state, looks);
  const paper = paperOf(state.size, looks.isAscii, looks.now());
  const face = faceOf(state, paper);
  // Ink writes within the commit, before layout effects: by then it must be known what it writes.
  useInsertionEffect(() => {
    if (face.kind === 'work') onShown(state.question);
  });
  return (
    <Box flexDirection="column" width={paper.columns} height={paper.rows} overflow="hidden">
      {face.kind === 'rows' ? (
        <RowsView rows={face.rows} hasColour={looks.hasColour} />
      ) : (
        <>
          <RowsView rows={face.frame.above} hasColour={looks.hasColour} />
          <FieldView
            state={state}
            paper={paper}
            feed={feed}
            onChange={store.typed}
            at={face.frame.above.length}
          />
          <RowsView rows={face.frame.below} hasColour={looks.hasColour} />
        </>
      )}
    </Box>
  );
};

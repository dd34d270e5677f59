import { Box, Text, useCursor } from 'ink';
import type { ReactNode } from 'react';
import { usesTextInput } from './desk.ts';
import type { Feed } from './feed.ts';
import type { ScreenState } from './screen-store.ts';
import { TextField } from './text-field.tsx';
import { fieldLine } from './view/field-line.ts';
import type { Paper } from './view/paper.ts';

/** The field, with the terminal's own cursor as its caret: seen without colour, found by input methods. */
export const FieldView = ({
  state,
  paper,
  feed,
  onChange,
  at,
}: {
  readonly state: ScreenState;
  readonly paper: Paper;
  readonly feed: Feed;
  readonly onChange: (text: string) => void;
  /** The row of the screen on which the field stands. */
  readonly at: number;
}): ReactNode => {
  const { question, field, echo, fieldVersion } = state;
  const line = fieldLine(question, field, echo, paper);
  const { setCursorPosition } = useCursor();
  setCursorPosition({ x: line.caret, y: at });
  return (
    <Box height={1} flexShrink={0}>
      <Box flexShrink={0}>
        <Text bold>{line.label}</Text>
      </Box>
      {usesTextInput(question) ? (
        <Box width={line.cells + 1} flexShrink={0}>
          <TextField
            key={fieldVersion}
            value={field.text}
            isSecret={question.field === 'secret'}
            feed={feed}
            onChange={onChange}
          />
        </Box>
      ) : (
        <Text wrap="truncate">
          {line.text}
          <Text bold>{line.echo}</Text>
        </Text>
      )}
    </Box>
  );
};

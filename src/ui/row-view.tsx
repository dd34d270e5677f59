import { Box, Text } from 'ink';
import type { ReactNode } from 'react';
import type { Look, Row } from './view/row.ts';

/** The one colour; bold and inverse stand without it. */
const styles = (look: Look, hasColour: boolean) => ({
  bold: look !== 'plain',
  inverse: look === 'alarm',
  ...(look === 'accent' && hasColour ? { color: 'cyan' } : {}),
});

const Spans = ({
  spans,
  hasColour,
}: {
  readonly spans: Row;
  readonly hasColour: boolean;
}): ReactNode => (
  <Text wrap="truncate">
    {spans.map((span, at) => (
      // Spans of a row have no identity beyond their place.
      // oxlint-disable-next-line react/no-array-index-key
      <Text key={at} {...styles(span.look, hasColour)}>
        {span.text}
      </Text>
    ))}
  </Text>
);

/** One row of the screen: never higher than one line, never shrunk away. */
const RowView = (props: { readonly spans: Row; readonly hasColour: boolean }): ReactNode => (
  <Box height={1} flexShrink={0}>
    <Spans {...props} />
  </Box>
);

export const RowsView = ({
  rows,
  hasColour,
}: {
  readonly rows: readonly Row[];
  readonly hasColour: boolean;
}): ReactNode =>
  rows.map((spans, at) => (
    // oxlint-disable-next-line react/no-array-index-key
    <RowView key={at} spans={spans} hasColour={hasColour} />
  ));

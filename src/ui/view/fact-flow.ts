import type { Paper } from './paper.ts';
import { flow, type Row, span } from './row.ts';

export type Fact = readonly [name: string, value: string | undefined];

/** What is known, its names plain and its values strong; none broken over two lines unless it is longer than one. */
export const factFlow = (facts: readonly Fact[], paper: Paper): readonly Row[] =>
  flow(
    facts.flatMap(([name, value]) =>
      value === undefined
        ? []
        : [[span(`${paper.clean(name)} `), span(paper.clean(value), 'strong')]],
    ),
    paper.columns,
  );

/** The smallest screen that Ink can paint: what the program's first frame is measured against. */
import { render, Text } from 'ink';
import { createElement } from 'react';

render(createElement(Text, null, 'One line.'));
// A program that waits for keys does not end by itself either.
setTimeout(() => {}, 60_000);

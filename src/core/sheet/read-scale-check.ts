import { keyed, optional, required } from './keys.ts';
import { time } from './read-time.ts';
import { choice, type Reader } from './reader.ts';
import type { ScaleCheck } from './sheet.ts';

const within = time('24 h');

const whole = keyed({
  within: required(within, 'How long before a batch its scales may have been checked.'),
  else: optional(choice(['deviation', 'refuse']), 'What becomes of a batch whose scales were not.'),
});

/** `24 h`, or `{within: 24 h, else: refuse}`; without a word, a batch without the check is a deviation. */
export const scaleCheck: Reader<ScaleCheck> = {
  example: within.example,
  schema: { anyOf: [within.schema, whole.schema] },
  read: (node, report) => {
    if (node.kind !== 'map') {
      const seconds = within.read(node, report);
      return seconds === undefined ? undefined : { within: seconds, otherwise: 'deviation' };
    }
    const draft = whole.read(node, report);
    return draft?.within === undefined
      ? undefined
      : { within: draft.within, otherwise: draft.else ?? 'deviation' };
  },
};

import { readName } from '../core/run/decide-batch.ts';
import { usage } from './stop.ts';

/** The person that `--by` names. Stops with status 2. */
export const readBy = (text: string): string =>
  readName(text) ?? usage(`--by takes a person's name, not ${text}.`);

import { keyed, optional } from './keys.ts';
import { defined } from './present.ts';
import { hasErrors, type Problem } from './problem.ts';
import { scaleCheck } from './read-scale-check.ts';
import { readYaml } from './read-yaml.ts';
import type { ScaleCheck } from './sheet.ts';

/** What a workshop asks for wherever a sheet says nothing of it. */
export interface Settings {
  readonly scaleCheck?: ScaleCheck;
}

const settingsReader = keyed({
  'scale check': optional(scaleCheck, 'How long before a batch its scales must have been checked.'),
});

/** Reads the settings of a workshop, as strictly as a sheet; empty text sets nothing. */
export const readSettings = (
  text: string,
):
  | { readonly ok: true; readonly settings: Settings }
  | { readonly ok: false; readonly problems: readonly Problem[] } => {
  const { node, problems: found } = readYaml(text);
  const problems: Problem[] = [...found];
  const draft = node && settingsReader.read(node, each => problems.push(each));
  if (hasErrors(problems)) return { ok: false, problems };
  return { ok: true, settings: defined({ scaleCheck: draft?.['scale check'] }) };
};

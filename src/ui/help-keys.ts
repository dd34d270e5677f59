/** Keys while help is open: it takes them all, and holds a line that arrives behind it. */
import { type Desk, nameOf, putField, showField, tell } from './desk.ts';
import type { Key } from './keys/decoder.ts';
import { editField, emptyField, fieldWith } from './keys/field.ts';
import { afterEcho, isEcho } from './keys/gate.ts';

// A line that arrives behind the overlay is held and named. The Enter that closes help must stand by itself.
const enterInHelp = (desk: Desk, at: number): void => {
  const { cell, memory } = desk;
  const { field, help, question } = cell.state();
  if (field.text !== '') {
    const isFirst = help?.held === undefined;
    if (isFirst) cell.set({ help: { top: help?.top ?? 0, held: field.text } });
    else
      tell(desk, `${nameOf(field.text, question)} set aside, not used: another line is waiting.`);
    putField(desk, emptyField);
  } else if (!isEcho(memory.gate, at)) closeHelp(desk);
  memory.gate = afterEcho(memory.gate, at);
};

const closeHelp = (desk: Desk): void => {
  const { help, field } = desk.cell.state();
  desk.cell.set({ help: undefined });
  putField(desk, help?.held === undefined ? field : fieldWith(help.held));
};

const scroll = ({ cell, options }: Desk, by: number): void => {
  const { help } = cell.state();
  if (help === undefined) return;
  const top = Math.max(0, Math.min(options.lastHelpTop(cell.state()), help.top + by));
  cell.set({ help: { ...help, top } });
};

export const pressInHelp = (desk: Desk, key: Key, at: number): void => {
  switch (key.kind) {
    case 'enter':
      enterInHelp(desk, at);
      break;
    case 'escape':
      closeHelp(desk);
      break;
    case 'up':
    case 'page-up':
      scroll(desk, key.kind === 'up' ? -1 : -10);
      break;
    case 'down':
    case 'page-down':
      scroll(desk, key.kind === 'down' ? 1 : 10);
      break;
    default:
      showField(desk, editField(desk.cell.state().field, key));
  }
};

/**
 * Bytes of a terminal's keyboard as keys. A key never depends on how its bytes were cut into chunks:
 * what is incomplete waits in the state. No clock here; the caller flushes when `patience` has passed.
 */
export type Key =
  /** One character. */
  | { readonly kind: 'text'; readonly text: string }
  /** Control and a letter, `c` for Ctrl+C. */
  | { readonly kind: 'ctrl'; readonly letter: string }
  /** A bracketed paste, whole; its line ends are no Enter. */
  | { readonly kind: 'paste'; readonly text: string }
  | { readonly kind: NamedKey };

type NamedKey =
  | 'enter'
  | 'backspace'
  | 'delete'
  | 'left'
  | 'right'
  | 'up'
  | 'down'
  | 'home'
  | 'end'
  | 'page-up'
  | 'page-down'
  | 'tab'
  | 'back-tab'
  | 'escape';

export interface DecoderState {
  /** What has arrived and is not yet a key. */
  readonly pending: string;
  readonly isPasting: boolean;
  /** A line feed right after a carriage return belongs to the same Enter. */
  readonly isAfterReturn: boolean;
}

export interface Decoded {
  readonly keys: readonly Key[];
  readonly state: DecoderState;
}

export const freshDecoder: DecoderState = { pending: '', isPasting: false, isAfterReturn: false };

const csiKeys: ReadonlyMap<string, NamedKey> = new Map([
  ['A', 'up'],
  ['B', 'down'],
  ['C', 'right'],
  ['D', 'left'],
  ['H', 'home'],
  ['F', 'end'],
  ['Z', 'back-tab'],
  ['1~', 'home'],
  ['7~', 'home'],
  ['4~', 'end'],
  ['8~', 'end'],
  ['3~', 'delete'],
  ['5~', 'page-up'],
  ['6~', 'page-down'],
]);

// The keypad in application mode, xterm's ctlseqs: `ESC O j` is `*`, and so on to `y` for 9.
const keypad = '*+,-./0123456789';

const controls: ReadonlyMap<string, NamedKey> = new Map([
  ['\r', 'enter'],
  ['\n', 'enter'],
  ['\t', 'tab'],
  ['\b', 'backspace'],
  ['\u007f', 'backspace'],
]);

const pasteStart = '200~';
const pasteEnd = '\u001b[201~';

/** The next key of a text and how long it is; no key for what is passed over; undefined when more must come. */
interface Piece {
  readonly length: number;
  readonly key?: Key;
  readonly startsPaste?: boolean;
}

const named = (kind: NamedKey | undefined): { key?: Key } =>
  kind === undefined ? {} : { key: { kind } };

const ss3Piece = (length: number, final: string): Piece => {
  if (final === 'M') return { length, key: { kind: 'enter' } };
  if (final === 'I') return { length, key: { kind: 'tab' } };
  if (final === 'X') return { length, key: { kind: 'text', text: '=' } };
  const text = final >= 'j' ? keypad[final.charCodeAt(0) - 'j'.charCodeAt(0)] : undefined;
  if (text !== undefined) return { length, key: { kind: 'text', text } };
  return { length, ...named(csiKeys.get(final)) };
};

const csiPiece = (length: number, parameters: string, final: string): Piece => {
  if (parameters + final === pasteStart) return { length, startsPaste: true };
  const first = parameters.split(';')[0] ?? '';
  return { length, ...named(csiKeys.get(final === '~' ? `${first}~` : final)) };
};

/* oxlint-disable no-control-regex -- escape sequences are what is read here */
const incomplete = /^\u001b(?:\[(?:\[|[0-?]*[ -/]*)|O\d*)?$/;
const consoleFunctionKey = /^\u001b\[\[[A-Z]/;
const csi = /^\u001b\[([0-?]*)[ -/]*([@-~])/;
const ss3 = /^\u001bO\d*([@-~])/;
const brokenCsi = /^\u001b\[[0-?]*[ -/]*/;
/* oxlint-enable no-control-regex */

const escapePiece = (text: string): Piece | undefined => {
  if (incomplete.test(text)) return undefined;
  const functionKey = consoleFunctionKey.exec(text);
  if (functionKey !== null) return { length: functionKey[0].length };
  const control = csi.exec(text);
  if (control !== null) return csiPiece(control[0].length, control[1] ?? '', control[2] ?? '');
  const single = ss3.exec(text);
  if (single !== null) return ss3Piece(single[0].length, single[1] ?? '');
  const broken = brokenCsi.exec(text);
  return broken === null ? { length: 1, key: { kind: 'escape' } } : { length: broken[0].length };
};

const controlPiece = (code: number): Piece => {
  const kind = controls.get(String.fromCharCode(code));
  if (kind !== undefined) return { length: 1, key: { kind } };
  const isLetter = code >= 1 && code <= 26;
  return isLetter
    ? { length: 1, key: { kind: 'ctrl', letter: String.fromCharCode(code + 96) } }
    : { length: 1 };
};

const isHighSurrogate = (code: number): boolean => code >= 0xd800 && code <= 0xdbff;
const isSurrogate = (code: number): boolean => code >= 0xd800 && code <= 0xdfff;

const nextPiece = (text: string): Piece | undefined => {
  const code = text.codePointAt(0) ?? 0;
  if (code === 0x1b) return escapePiece(text);
  if (code < 0x20 || (code >= 0x7f && code < 0xa0)) return controlPiece(code);
  if (isHighSurrogate(code) && text.length === 1) return undefined;
  if (isSurrogate(code)) return { length: 1 };
  const character = String.fromCodePoint(code);
  return { length: character.length, key: { kind: 'text', text: character } };
};

const takePaste = (pending: string, keys: Key[]): DecoderState => {
  const end = pending.indexOf(pasteEnd);
  if (end < 0) return { pending, isPasting: true, isAfterReturn: false };
  keys.push({ kind: 'paste', text: pending.slice(0, end) });
  return { ...freshDecoder, pending: pending.slice(end + pasteEnd.length) };
};

const takePiece = (state: DecoderState, piece: Piece, keys: Key[]): DecoderState => {
  const taken = state.pending.slice(0, piece.length);
  const isSecondHalf = taken === '\n' && state.isAfterReturn;
  if (piece.key !== undefined && !isSecondHalf) keys.push(piece.key);
  return {
    pending: state.pending.slice(piece.length),
    isPasting: piece.startsPaste === true,
    isAfterReturn: taken === '\r',
  };
};

/** Takes a chunk of what the keyboard sent, already decoded from UTF-8. */
export const decodeKeys = (before: DecoderState, chunk: string): Decoded => {
  const keys: Key[] = [];
  let state: DecoderState = { ...before, pending: before.pending + chunk };
  while (state.pending !== '') {
    if (state.isPasting) {
      state = takePaste(state.pending, keys);
      if (state.isPasting) break;
      continue;
    }
    const piece = nextPiece(state.pending);
    if (piece === undefined) break;
    state = takePiece(state, piece, keys);
  }
  return { keys, state };
};

/** What is pending once nothing more came: a lone escape is the Escape key, a paste ends. */
export const flushKeys = ({ pending, isPasting }: DecoderState): Decoded => {
  const isEscape = pending.startsWith('\u001b');
  const keys: readonly Key[] = isPasting
    ? [{ kind: 'paste', text: pending }]
    : isEscape
      ? [{ kind: 'escape' }]
      : [];
  return { keys, state: freshDecoder };
};

/** Milliseconds to wait for more before flushing; undefined when nothing is pending. */
export const patience = ({
  pending,
  isPasting,
  isAfterReturn,
}: DecoderState): number | undefined => {
  if (isPasting) return 1000;
  if (pending.length > 1) return 200;
  return pending !== '' || isAfterReturn ? 50 : undefined;
};

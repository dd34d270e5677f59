/** Choosing on the home screen, pure: arrows move, Enter chooses, loose text does nothing. */
import { type HomeChoice, type HomeModel, homeEntries } from '../core/dialogue/home.ts';
import type { Key } from './keys/decoder.ts';
import type { Size } from './screen-store.ts';
import { isTooSmall } from './view/too-small.ts';

export interface HomeState {
  /** The entry that Enter chooses. */
  readonly at: number;
  readonly wantsPractice: boolean;
  /** Characters typed since the last Enter: a scanned code, or a word. */
  readonly typed: string;
  readonly notice: string;
  readonly size: Size;
}

export interface HomeStep {
  readonly state: HomeState;
  readonly choice?: HomeChoice;
}

export const firstHome = (size: Size): HomeState => ({
  at: 0,
  wantsPractice: false,
  typed: '',
  notice: '',
  size,
});

const move = (model: HomeModel, state: HomeState, by: number): HomeState => {
  const last = homeEntries(model, state.wantsPractice).length - 1;
  return { ...state, notice: '', at: Math.max(0, Math.min(last, state.at + by)) };
};

const enter = (model: HomeModel, state: HomeState): HomeStep => {
  const word = state.typed.trim();
  if (word === 'leave') return { state, choice: { kind: 'leave' } };
  if (word !== '') {
    const notice = `${word} is not expected here. Arrows and Enter choose; leave, then Enter, leaves.`;
    return { state: { ...state, typed: '', notice } };
  }
  const choice = homeEntries(model, state.wantsPractice)[state.at]?.choice;
  return choice === undefined ? { state } : { state, choice };
};

const changed = (model: HomeModel, state: HomeState, key: Key): HomeState => {
  switch (key.kind) {
    case 'text':
    case 'paste':
      return { ...state, typed: (state.typed + key.text).slice(0, 100) };
    case 'backspace':
      return { ...state, typed: state.typed.slice(0, -1) };
    case 'escape':
      return { ...state, typed: '', notice: '' };
    case 'tab':
      return { ...state, notice: '', wantsPractice: !state.wantsPractice };
    case 'up':
    case 'down':
      return move(model, state, key.kind === 'up' ? -1 : 1);
    case 'page-up':
    case 'page-down':
      return move(model, state, key.kind === 'page-up' ? -10 : 10);
    default:
      return state;
  }
};

/** The home screen after a key, or what was chosen with it. */
export const pressAtHome = (model: HomeModel, state: HomeState, key: Key): HomeStep => {
  if (isTooSmall(state.size.columns, state.size.rows)) return { state };
  return key.kind === 'enter' ? enter(model, state) : { state: changed(model, state, key) };
};

/** A state that lives outside React, and who listens to it. */
export interface Cell<State> {
  readonly state: () => State;
  readonly set: (change: Partial<State>) => void;
  readonly subscribe: (listener: () => void) => () => void;
}

export const createCell = <State extends object>(first: State): Cell<State> => {
  const listeners = new Set<() => void>();
  let state = first;
  return {
    state: () => state,
    set: change => {
      state = { ...state, ...change };
      for (const listener of listeners) listener();
    },
    subscribe: listener => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
};

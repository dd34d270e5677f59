/**
 * Does one thing after the other: what comes while the one before is unfinished waits its turn. The
 * first thing starts at once, within the call that adds it.
 */
export const inTurn = <Thing>(
  work: (thing: Thing) => Promise<void> | undefined,
  onFault: (fault: unknown) => void,
): { readonly add: (thing: Thing) => void } => {
  const waiting: Thing[] = [];
  let isBusy = false;

  const next = (): void => {
    const thing = isBusy ? undefined : waiting.shift();
    if (thing === undefined) return;
    const unfinished = work(thing);
    if (unfinished === undefined) next();
    else wait(unfinished);
  };

  const wait = (unfinished: Promise<void>): void => {
    isBusy = true;
    unfinished.then(() => {
      isBusy = false;
      next();
    }, onFault);
  };

  return {
    add: thing => {
      waiting.push(thing);
      next();
    },
  };
};

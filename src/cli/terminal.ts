/** What this terminal can show, as its environment says. */

const locale = (): string => {
  const { env } = process;
  return (
    [env['LC_ALL'], env['LC_CTYPE'], env['LANG']].find(each => each !== undefined && each !== '') ??
    ''
  );
};

/** True where the locale is not UTF-8, or --ascii asks for it. */
export const isAscii = (asked: boolean | undefined): boolean =>
  asked === true || !/utf-?8/i.test(locale());

/** Colour only repeats what words say; NO_COLOR and TERM=dumb turn it off. */
export const hasColour = (): boolean => {
  const { env } = process;
  return (env['NO_COLOR'] ?? '') === '' && env['TERM'] !== 'dumb';
};

/** Whether lines are wanted instead of a screen. */
export const wantsPlain = (asked: boolean | undefined): boolean => {
  const { env } = process;
  return (
    asked === true ||
    env['TERM'] === 'dumb' ||
    (env['INK_SCREEN_READER'] ?? '') !== '' ||
    (env['ACCESSIBLE'] ?? '') !== ''
  );
};

export const isTerminal = (): boolean => process.stdin.isTTY && process.stdout.isTTY;

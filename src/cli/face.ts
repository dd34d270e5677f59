import { constants } from 'node:os';
import type { Conversation } from '../core/dialogue/conversation.ts';
import { clock } from './clock.ts';
import { exitStatus } from './exit-status.ts';
import { usage } from './stop.ts';
import { hasColour, isAscii, isTerminal, wantsPlain } from './terminal.ts';

export interface FaceOptions {
  readonly plain?: boolean;
  readonly ascii?: boolean;
  /** False for --no-alt-screen. */
  readonly altScreen?: boolean;
  /** False for --no-bell. */
  readonly bell?: boolean;
}

/** Ink draws nothing until its end where these are set. */
export const undoCi = (): void => {
  delete process.env['CI'];
  delete process.env['CONTINUOUS_INTEGRATION'];
};

export const signalStatus = (signal: NodeJS.Signals): number => 128 + constants.signals[signal];

/** What every screen here is shown with. */
export const screenOptions = ({ altScreen, ascii }: FaceOptions) => ({
  stdin: process.stdin,
  stdout: process.stdout,
  usesAlternateScreen: altScreen !== false,
  isAscii: isAscii(ascii),
  hasColour: hasColour(),
});

const onLines = async (conversation: Conversation, options: FaceOptions): Promise<number> => {
  const [{ runPlain }, { stdioLines }] = await Promise.all([
    import('../plain/plain.ts'),
    import('../plain/stdio-lines.ts'),
  ]);
  const lines = stdioLines({ input: process.stdin, output: process.stdout });
  try {
    const ending = await runPlain(conversation, lines, { isAscii: isAscii(options.ascii) });
    return ending.status;
  } finally {
    lines.close();
  }
};

const onScreen = async (conversation: Conversation, options: FaceOptions): Promise<number> => {
  undoCi();
  const { startScreen } = await import('../ui/screen.tsx');
  const end = await startScreen(conversation, {
    ...screenOptions(options),
    rings: options.bell !== false,
    now: clock,
  });
  switch (end.kind) {
    case 'ended':
      return end.ending.status;
    case 'interrupted':
      return exitStatus.interrupted;
    case 'signal':
      return signalStatus(end.signal);
    case 'fault':
      process.stderr.write(
        `${end.fault instanceof Error ? end.fault.message : String(end.fault)}\n`,
      );
      return exitStatus.ourFault;
  }
};

/** Stops with status 2 where a screen is asked for and there is no terminal. */
export const checkFace = (options: FaceOptions): void => {
  if (!wantsPlain(options.plain) && !isTerminal()) {
    usage('There is no terminal here for the screen. Use --plain: one question, one line.');
  }
};

/** Shows the conversation on the screen, or line by line, and answers the exit status. */
export const showFace = (conversation: Conversation, options: FaceOptions): Promise<number> =>
  wantsPlain(options.plain) ? onLines(conversation, options) : onScreen(conversation, options);

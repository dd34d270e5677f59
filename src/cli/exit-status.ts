/** The exit statuses of every command; `--help` prints this table. */
export const exitStatus = {
  good: 0,
  doesNotHold: 1,
  usage: 2,
  missing: 3,
  unfinished: 4,
  ourFault: 70,
  interrupted: 130,
} as const;

export const exitStatusText = `Exit status:
  0    done and good
  1    the content does not hold: a bad sheet, a bad signature
  2    usage, or a screen asked for without a terminal
  3    a file is missing, unreadable, not ours, or held by another process
  4    left, waiting, or closing unfinished
  70   our own fault
  130  Ctrl+C; 128 + n for signal n`;

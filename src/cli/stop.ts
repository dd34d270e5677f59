import { exitStatus } from './exit-status.ts';

/** A stop that the person at the terminal can do something about: what is wrong, and what to do. */
export class Stop extends Error {
  readonly status: number;
  constructor(status: number, message: string) {
    super(message);
    this.name = 'Stop';
    this.status = status;
  }
}

/** Stops with status 2: the call itself is wrong. */
export const usage = (message: string): never => {
  throw new Stop(exitStatus.usage, message);
};

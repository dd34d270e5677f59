/** A stop that the person at the terminal can do something about: what is wrong, and what to do. */
export class Stop extends Error {
  readonly status: number;
  constructor(status: number, message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = 'Stop';
    this.status = status;
  }
}

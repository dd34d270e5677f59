import { createInterface } from 'node:readline';
import { Writable } from 'node:stream';
import type { Lines } from './plain.ts';

interface Streams {
  readonly input: NodeJS.ReadStream;
  readonly output: NodeJS.WriteStream;
}

/** Lines of a terminal or a pipe. On a terminal what is typed shows, a secret excepted. */
export const stdioLines = ({ input, output }: Streams): Lines & { readonly close: () => void } => {
  let isMuted = false;
  const echo = new Writable({
    write: (chunk: Buffer, _encoding, done) => {
      if (isMuted) done();
      else output.write(chunk, () => done());
    },
  });
  const reader = createInterface({ input, output: echo, terminal: input.isTTY });
  const iterator = reader[Symbol.asyncIterator]();
  return {
    print: text => void output.write(text),
    next: async isSecret => {
      isMuted = isSecret;
      const { value, done } = await iterator.next();
      if (isSecret) output.write('\n');
      isMuted = false;
      return done === true ? undefined : value;
    },
    close: () => reader.close(),
  };
};

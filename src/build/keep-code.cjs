/**
 * Loaded before the launcher while the program is built: when the program ends, what V8 has compiled by then
 * is kept beside each file that the launcher ran. With TAREBOOK_SCREEN the program sees a terminal of
 * 80 × 24, at which Ctrl+C is pressed as soon as nothing is painted any more.
 */
'use strict';

const { writeFileSync } = require('node:fs');
const { PassThrough } = require('node:stream');
const vm = require('node:vm');
const { sealOf } = require('./seal.cjs');

const scripts = [];
vm.Script = class extends vm.Script {
  constructor(text, options) {
    super(text, options);
    scripts.push({ script: this, text, path: options.filename });
  }
};

process.on('exit', () => {
  for (const { script, text, path } of scripts) {
    const code = script.createCachedData();
    writeFileSync(`${path}.code`, Buffer.concat([code, sealOf(text, code)]));
  }
});

const terminal = () =>
  Object.assign(new PassThrough(), {
    isTTY: true,
    columns: 80,
    rows: 24,
    setRawMode: () => undefined,
    ref: () => undefined,
    unref: () => undefined,
  });

if (process.env.TAREBOOK_SCREEN !== undefined) {
  const [stdin, stdout] = [terminal(), terminal()];
  Object.defineProperty(process, 'stdin', { value: stdin });
  Object.defineProperty(process, 'stdout', { value: stdout });
  const quiet = setTimeout(() => stdin.write('\u0003'), 500);
  stdout.on('data', () => quiet.refresh());
}

#!/usr/bin/env node
/**
 * Starts the program with the code that V8 made of it when it was built (code-ahead.mjs), so that it is not
 * compiled again at each start. Code that is damaged, missing, or of another Node is left alone: the start
 * is slower then, and nothing else changes. Nothing is ever written.
 */
'use strict';

const { readFileSync } = require('node:fs');
const { join } = require('node:path');
const { Script } = require('node:vm');
const { sealOf } = require('./seal.cjs');

/** The code made ahead of the text of a file, if it is sound. */
const codeOf = (path, text) => {
  try {
    const sealed = readFileSync(`${path}.code`);
    const code = sealed.subarray(0, -4);
    return sealOf(text, code).equals(sealed.subarray(-4)) ? code : undefined;
  } catch {
    return undefined;
  }
};

const loaded = new Map();

/** Runs a file of this folder as a CommonJS module; the files that it asks for in turn likewise. */
const load = name => {
  const known = loaded.get(name);
  if (known !== undefined) return known.exports;
  const path = join(__dirname, name);
  const text = `(function(exports,require,module,__dirname){${readFileSync(path, 'utf8')}\n})`;
  const script = new Script(text, { filename: path, cachedData: codeOf(path, text) });
  const module = { exports: {} };
  loaded.set(name, module);
  script.runInThisContext()(module.exports, requireHere, module, __dirname);
  return module.exports;
};

const requireHere = name => (name.startsWith('./') ? load(name) : require(name));

load('./program.cjs');

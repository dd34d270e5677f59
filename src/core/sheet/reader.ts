/**
 * A sheet is described once, by readers that are put together: each knows how to read its part of a
 * file and how an editor's JSON Schema describes it.
 */
import { isEmpty, type Node } from './node.ts';
import { type Problem, type ProblemCode, problem } from './problem.ts';
import { quote } from './quote.ts';
import type { Place } from './sheet.ts';

export type Report = (found: Problem) => void;

/** A part of a JSON Schema. */
export type Schema = { readonly [word: string]: unknown };

export interface Reader<T> {
  /** Answers undefined when the part cannot be read; what is wrong was then reported. */
  readonly read: (node: Node, report: Report) => T | undefined;
  readonly schema: Schema;
  /** A right value, for mends. */
  readonly example: string;
  /** Set where nothing at all may stand. */
  readonly mayBeEmpty?: boolean;
}

export interface Placed<T> {
  readonly value: T;
  readonly place: Place;
}

/** Reports one problem at the place of what is read. */
export type Fault = (code: ProblemCode, message: string, mend: string) => undefined;

export const faultAt =
  (place: Place, report: Report): Fault =>
  (code, message, mend) => {
    report(problem(code, place, message, mend));
    return undefined;
  };

const textSchema: Schema = { type: ['string', 'number'] };

/** Reads one piece of text, which `parse` makes sense of. */
export const fromText = <T>(
  example: string,
  parse: (text: string, fault: Fault) => T | undefined,
  schema: Schema = textSchema,
): Reader<T> => ({
  example,
  schema,
  read: (node, report) => {
    const fault = faultAt(node.place, report);
    if (node.kind !== 'text') {
      const found = node.kind === 'list' ? 'A list' : 'A group of keys';
      return fault(
        'wrong-shape',
        `${found} stands where one value belongs.`,
        `Write one value, such as ${quote(example)}. Text with signs such as { or [ goes in quotes.`,
      );
    }
    if (isEmpty(node)) {
      return fault('no-value', 'There is no value here.', `Write one, such as ${example}.`);
    }
    return parse(node.text, fault);
  },
});

export const words = (example: string): Reader<string> => fromText(example, text => text);

/** One of a few words, and nothing else. */
export const choice = <const T extends string>(choices: readonly [T, ...T[]]): Reader<T> =>
  fromText(
    choices[0],
    (text, fault) =>
      choices.find(each => each === text) ??
      fault('not-a-choice', `${quote(text)} cannot stand here.`, `Write ${choices.join(' or ')}.`),
    { enum: choices },
  );

/** Keeps the place of what `reader` reads, for rules that look across the sheet. */
export const placed = <T>(reader: Reader<T>): Reader<Placed<T>> => ({
  ...reader,
  read: (node, report) => {
    const value = reader.read(node, report);
    return value === undefined ? undefined : { value, place: node.place };
  },
});

/** A list; an item that cannot be read leaves a hole, so that rules know what they do not know. */
export const listOf = <T>(reader: Reader<T>): Reader<readonly (T | undefined)[]> => ({
  example: `[${reader.example}]`,
  schema: { type: 'array', items: reader.schema },
  read: (node, report) => {
    if (node.kind === 'list') return node.items.map(item => reader.read(item, report));
    const mend = 'Write one item a line, each after “- ” (a dash and a blank).';
    return faultAt(node.place, report)('wrong-shape', 'A list belongs here.', mend);
  },
});

/** One value, or a list of them. */
export const oneOrMore = <T>(reader: Reader<T>): Reader<readonly (T | undefined)[]> => {
  const several = listOf(reader);
  return {
    example: reader.example,
    schema: { anyOf: [reader.schema, several.schema] },
    read: (node, report) =>
      node.kind === 'list' ? several.read(node, report) : [reader.read(node, report)],
  };
};

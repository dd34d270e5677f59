import { isAlias, isMap, isScalar, isSeq, type ParsedNode, parseDocument } from 'yaml';
import { checkOutline } from './check-outline.ts';
import { explainYamlError, plainDataOnly } from './explain-yaml-error.ts';
import type { Entry, Node } from './node.ts';
import { placeIn } from './place-in.ts';
import { type Problem, problem } from './problem.ts';
import { checkCharacters, hasRefusedCharacter, refusedInText } from './refused-characters.ts';
import type { Place } from './sheet.ts';

interface Tree {
  /** Absent where the text is not YAML, or holds nothing. */
  readonly node?: Node;
  readonly problems: readonly Problem[];
}

interface Source {
  readonly text: string;
  readonly problems: Problem[];
  readonly placeOf: (offset: number) => Place;
}

const parse = (text: string) =>
  parseDocument(text, {
    schema: 'failsafe',
    stringKeys: true,
    // Repeated keys are found below: the library compares each key with each other one.
    uniqueKeys: false,
    prettyErrors: false,
  });

/** Reads plain YAML 1.2 in which every value stays the text that was typed; anchors, aliases and tags are refused. */
export const readYaml = (file: string): Tree => {
  const text = file.replace(/^\uFEFF/, '');
  const outline = checkOutline(text);
  if (outline !== undefined) return { problems: [outline] };
  const document = parse(text);
  const placeOf = placeIn(text);
  const problems = checkCharacters(text, placeOf);
  const faults = [...document.errors, ...document.warnings];
  problems.push(...faults.map(fault => explainYamlError(fault, placeOf(fault.pos[0]))));
  const isBroken = problems.some(each => each.code === 'not-yaml');
  if (isBroken || document.contents === null) return { problems: oneForEachPlace(problems) };
  const node = readNode({ text, problems, placeOf }, document.contents);
  return { node, problems: oneForEachPlace(problems) };
};

// One slip in YAML draws several complaints on its line; the first names it best.
const oneForEachPlace = (problems: readonly Problem[]): readonly Problem[] => {
  const found = new Map<string, Problem>();
  for (const each of problems) {
    const { code, line, column } = each;
    const key = code === 'not-yaml' ? `${code} ${line}` : `${code} ${line} ${column}`;
    if (!found.has(key)) found.set(key, each);
  }
  return [...found.values()];
};

const refuseProperties = (source: Source, item: ParsedNode): void => {
  if (!isAlias(item) && item.tag === undefined && item.anchor === undefined) return;
  const before = source.text.slice(0, item.range[0]);
  const properties = /(?<=^|[\s,:[{])(?:[&!]\S*\s*){1,2}$/.exec(before.slice(-200))?.[0] ?? '';
  const place = source.placeOf(item.range[0] - properties.length);
  const { code, message, mend } = plainDataOnly;
  source.problems.push(problem(code, place, message, mend));
};

// A tag, refused elsewhere, may have made the value anything; its source is always text.
const typedText = (item: ParsedNode): string => {
  if (isAlias(item)) return item.source;
  if (!isScalar(item)) return '';
  return typeof item.value === 'string' ? item.value : item.source;
};

const readText = (source: Source, item: ParsedNode): string => {
  const text = typedText(item);
  const [start, end] = item.range;
  if (hasRefusedCharacter(text) && !hasRefusedCharacter(source.text.slice(start, end))) {
    source.problems.push(refusedInText(source.placeOf(start)));
  }
  return text.replace(/\s+/g, ' ').trim();
};

const readNode = (source: Source, item: ParsedNode): Node => {
  refuseProperties(source, item);
  const place = source.placeOf(item.range[0]);
  if (isMap<ParsedNode, ParsedNode | null>(item)) {
    return {
      kind: 'map',
      entries: readEntries(source, item.items),
      isInBraces: item.flow === true,
      place,
    };
  }
  if (isSeq<ParsedNode>(item)) {
    return { kind: 'list', items: item.items.map(each => readNode(source, each)), place };
  }
  return { kind: 'text', text: readText(source, item), place };
};

const readEntries = (
  source: Source,
  pairs: readonly { readonly key: ParsedNode; readonly value: ParsedNode | null }[],
): readonly Entry[] => {
  const entries = new Map<string, Entry>();
  for (const pair of pairs) {
    refuseProperties(source, pair.key);
    const place = source.placeOf(pair.key.range[0]);
    const key = readText(source, pair.key);
    const value: Node =
      pair.value === null ? { kind: 'text', text: '', place } : readNode(source, pair.value);
    if (entries.has(key)) source.problems.push(repeatedKey(key, place));
    else entries.set(key, { key, place, value });
  }
  return [...entries.values()];
};

const repeatedKey = (key: string, place: Place): Problem =>
  problem(
    'repeated-key',
    place,
    `“${key}” stands here a second time.`,
    'Keep one of the two and delete the other.',
  );

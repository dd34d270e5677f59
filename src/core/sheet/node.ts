import type { Place } from './sheet.ts';

/** What a file says before anyone asks what it means: maps, lists and text, each with its place. */
export type Node = MapNode | ListNode | TextNode;

export interface MapNode {
  readonly kind: 'map';
  readonly entries: readonly Entry[];
  /** Written inside braces, where a comma ends a value. */
  readonly isInBraces: boolean;
  readonly place: Place;
}

export interface Entry {
  readonly key: string;
  readonly place: Place;
  readonly value: Node;
}

interface ListNode {
  readonly kind: 'list';
  readonly items: readonly Node[];
  readonly place: Place;
}

interface TextNode {
  readonly kind: 'text';
  /** One line, runs of white space as one space; empty where nothing stands. */
  readonly text: string;
  readonly place: Place;
}

export const isEmpty = (node: Node): boolean => node.kind === 'text' && node.text === '';

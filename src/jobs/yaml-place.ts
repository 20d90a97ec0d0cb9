import { isAlias, isMap, isNode, isScalar, isSeq, type Document, type Pair } from 'yaml';
import type { Place } from './place.ts';

/** Keys and positions from the top of a file down. */
export type Path = readonly (string | number)[];

/** A parsed file: its tree, and where each part of it stands. */
export interface Source {
  readonly document: Document.Parsed;
  readonly placeAt: (offset: number) => Place;
}

const resolveNode = ({ document }: Source, node: unknown): unknown =>
  isAlias(node) ? node.resolve(document) : node;

const findPair = (source: Source, node: unknown, key: string | number): Pair | undefined => {
  const map = resolveNode(source, node);
  return isMap(map) ? map.items.find((pair) => isScalar(pair.key) && pair.key.value === key) : undefined;
};

const childOf = (source: Source, node: unknown, key: string | number): unknown => {
  const parent = resolveNode(source, node);
  return isSeq(parent) ? parent.items[Number(key)] : findPair(source, parent, key)?.value;
};

const startOf = (node: unknown): number | undefined => (isNode(node) ? node.range?.[0] : undefined);

/** Where a value stands, or the nearest thing round it that stands anywhere. `key` asks for a key's own place. */
export const locate = (source: Source, path: Path, key?: string): Place => {
  let node: unknown = source.document.contents;
  let offset = startOf(node) ?? 0;
  for (const step of path) {
    const pair = findPair(source, node, step);
    node = childOf(source, node, step);
    offset = startOf(node) ?? startOf(pair?.key) ?? offset;
  }
  const own = key === undefined ? undefined : findPair(source, node, key)?.key;
  return source.placeAt(startOf(own) ?? offset);
};

import type { Sheet } from '../../src/drawing/model.ts';
import { layouts } from '../../src/layouts/registry.ts';
import { makeSheets } from '../../src/print.ts';
import { readRequest, type Request } from '../../src/request.ts';
import { readExample } from './example.ts';

/** A request with the sheets it makes. */
export interface Drawn {
  readonly request: Request;
  readonly sheets: readonly Sheet[];
}

/** Every example of every layout: the layout's name and the command line. */
export const examples: readonly (readonly [id: string, example: string])[] = layouts.flatMap((layout) =>
  layout.examples.map((example) => [layout.id, example] as const),
);

const drawn = new Map<string, Drawn>();

/** An example as it is drawn. All tests of a process share one drawing of it, its pictures too. */
export const drawExample = (id: string, example: string): Drawn => {
  const known = drawn.get(`${id} ${example}`);
  if (known !== undefined) return known;
  const request = readRequest(id, readExample(example));
  const made = { request, sheets: makeSheets(request) };
  drawn.set(`${id} ${example}`, made);
  return made;
};

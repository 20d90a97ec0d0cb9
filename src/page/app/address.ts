import type { Texts } from '../../request.ts';
import type { Asked } from '../core/views.ts';

/** What the page shows. */
export type Route =
  | { readonly screen: 'choose' | 'pieces' | 'printers' }
  | { readonly screen: 'work'; readonly layout: string; readonly texts: Texts | undefined };

const screens = ['pieces', 'printers'] as const;

/** A request as the part of a link after `#`: `#branch?branch=NPS+2+sch+40&angle=60`. */
export const writeAddress = ({ layout, texts }: Asked): string => {
  const pairs = Object.entries(texts).flatMap(([name, text]) =>
    [text].flat().map((one): [string, string] => [name, one]),
  );
  return `#${layout}?${new URLSearchParams(pairs).toString()}`;
};

/** What a link asks for. Inputs given several times come as lists. */
export const readAddress = (hash: string): Route => {
  const plain = hash.replace(/^#/, '');
  if (plain === '') return { screen: 'choose' };
  const screen = screens.find((name) => plain === `/${name}`);
  if (screen !== undefined) return { screen };
  const [layout = '', query] = plain.split('?');
  if (query === undefined) return { screen: 'work', layout, texts: undefined };
  // A link may name anything, also what every object has of itself.
  const texts = new Map<string, string | readonly string[]>();
  for (const [name, text] of new URLSearchParams(query)) {
    const before = texts.get(name);
    texts.set(name, before === undefined ? text : [before, text].flat());
  }
  return { screen: 'work', layout, texts: Object.fromEntries(texts) };
};

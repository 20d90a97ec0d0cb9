import type { Mark } from '../drawing/model.ts';

/** Heights of running text, mm. */
export type TextHeight = 2.5 | 3.5;

/** A block set to a width: its marks stand in a box whose lower left corner is (0, 0). */
export interface Fitted {
  readonly width: number;
  readonly height: number;
  /** How much harder it is to read than in another width, as a length of paper that is worth, mm; 0 where it is left out. */
  readonly strain?: number;
  readonly draw: () => readonly Mark[];
}

/** Something said beside a drawing. */
export interface Block {
  readonly kind:
    'subject' | 'steps' | 'facts' | 'table' | 'picture' | 'cautions' | 'plan' | 'sign-off' | 'card';
  /** The block set to a column's width, or undefined where it does not go in. */
  readonly fit: (width: number, text: TextHeight) => Fitted | undefined;
  /** The block in two, for a page of a width that is too small for the whole of it. */
  readonly split?: ((width: number) => readonly [Block, Block]) | undefined;
  /** The same in all parts of what was one block: they stand in their order, on whatever pages. */
  readonly run?: object | undefined;
  /** What it says, as text: two blocks that say the same are one where sheets share a page. */
  readonly says?: (() => string) | undefined;
  /** Left out where it would take a page more. */
  readonly isSpare?: true | undefined;
  /** Its lines, where those of several sheets may stand in one list. */
  readonly lines?: readonly string[] | undefined;
}

/** Running text is set to widths in steps of so much, mm: a hair more or less breaks no line differently. */
const step = 4;
const isRunning = (kind: Block['kind']): boolean => kind !== 'picture' && kind !== 'table' && kind !== 'plan';

/** A block that is set only once to a width, however often it is tried there. */
export const makeBlock = ({ kind, fit, split }: Block): Block => {
  const isText = isRunning(kind);
  const known: Readonly<Record<TextHeight, Map<number, Fitted | undefined>>> = {
    2.5: new Map(),
    3.5: new Map(),
  };
  return {
    kind,
    split,
    fit: (room, text) => {
      const width = isText ? Math.floor(room / step) * step : Math.floor(room * 10) / 10;
      const before = known[text].get(width);
      if (before !== undefined || known[text].has(width)) return before;
      const shape = fit(width, text);
      known[text].set(width, shape);
      return shape;
    },
  };
};

/** Line pitch for lettering of a height: clear of accents above and tails below. */
export const pitchOf = (height: number): number => height * 1.6;

/** The height a number of lines takes. */
export const linesHeight = (count: number, height: number): number => count * pitchOf(height);

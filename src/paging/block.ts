import type { Mark } from '../drawing/model.ts';

/** One way to draw a block; a higher `cost` is less pleasant to read. */
export interface Shape {
  readonly width: number;
  readonly height: number;
  readonly cost: number;
  /** Set in the smallest lettering. */
  readonly isSmall: boolean;
  /** The marks, in a box whose lower left corner is (0, 0). */
  readonly draw: () => readonly Mark[];
}

/** Where on the page a block belongs: nearest this corner. */
export type Corner = 'top-left' | 'top-right' | 'bottom-left' | 'bottom-right';

/** Something said beside a drawing: the ways it can be drawn, pleasantest first, and where it belongs. */
export interface Block {
  readonly kind: 'subject' | 'steps' | 'facts' | 'table' | 'picture' | 'cautions' | 'plan' | 'sign-off';
  readonly corner: Corner;
  readonly shapes: readonly Shape[];
  /** The block in two, for a page that is too small for the whole of it. */
  readonly split?: (() => readonly [Block, Block]) | undefined;
}

/** The block in its smallest lettering only. */
export const shrinkBlock = (block: Block): Block => ({
  ...block,
  shapes: block.shapes.filter((shape) => shape.isSmall),
});

/** The block in large lettering only; a table, which is looked up and not read, may still be small. */
export const enlargeBlock = (block: Block): Block => {
  const large = block.shapes.filter((shape) => !shape.isSmall);
  return block.kind === 'table' || large.length === 0 ? block : { ...block, shapes: large };
};

/** Line pitch for lettering of a height: clear of accents above and tails below. */
export const pitchOf = (height: number): number => height * 1.6;

/** The height a number of lines takes. */
export const linesHeight = (count: number, height: number): number => count * pitchOf(height);

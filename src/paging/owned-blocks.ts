import { moveMarks } from '../drawing/extent.ts';
import { textWidth, wrapText } from '../drawing/lettering.ts';
import { letter } from '../drawing/paths.ts';
import { type Block, makeBlock, pitchOf } from './block.ts';
import { careBlock, type Head } from './text-blocks.ts';

/** What is left to be said of a sheet. */
export interface Left {
  readonly sheet: Head;
  readonly blocks: readonly Block[];
}

const height = 2.5;

/** What a block says, with its kind, so that blocks of other kinds do not match it. */
export const saysOf = ({ kind, says }: Block): string | undefined => says && `${kind} ${says()}`;

/** A block with the name of its sheet over it. */
const ownedBlock = (block: Block, owner: string): Block =>
  makeBlock({
    kind: block.kind,
    says: block.says,
    split:
      block.split &&
      ((width) => {
        const [first, second] = block.split?.(width) ?? [block, block];
        return [ownedBlock(first, owner), ownedBlock(second, owner)];
      }),
    fit: (room, text) => {
      const shape = block.fit(room, text);
      if (!shape) return undefined;
      const lines = wrapText(owner, height, true, Math.min(room, Math.max(shape.width, 40)));
      const above = lines.length * pitchOf(height);
      const width = Math.max(shape.width, ...lines.map((line) => textWidth(line, height, true)));
      if (width > room + 1e-6) return undefined;
      return {
        width,
        height: shape.height + above,
        draw: () => [
          ...lines.map((line, i) =>
            letter(
              'text',
              { x: 0, y: shape.height + above - height * 1.15 - i * pitchOf(height) },
              line,
              height,
              {
                bold: true,
              },
            ),
          ),
          ...moveMarks(shape.draw(), 0, 0),
        ],
      };
    },
  });

/** The cautions of several sheets in one list, each line once, what stands on every sheet last. */
const uniteCautions = (blocks: readonly Block[]): readonly Block[] => {
  const lists = blocks.flatMap(({ lines }) => (lines ? [lines] : []));
  const own = lists.flatMap((lines) => lines.slice(0, -1));
  const shared = lists.flatMap((lines) => lines.slice(-1));
  return lists.length === 0 ? [] : [careBlock([...new Set([...own, ...shared])])];
};

/**
 * What several sheets have to say, on ground that they share: what more than one of them says is said once, and what not
 * all of them say bears their names.
 */
export const shareBlocks = (left: readonly Left[]): readonly Block[] => {
  const known = new Map<string, { readonly block: Block; readonly owners: string[] }>();
  for (const [i, { sheet, blocks }] of left.entries())
    for (const [k, block] of blocks.entries()) {
      const key = saysOf(block) ?? `${i} ${k}`;
      const same = known.get(key);
      if (!same) known.set(key, { block, owners: [sheet.heading] });
      else if (!same.owners.includes(sheet.heading)) same.owners.push(sheet.heading);
    }
  const all = [...known.values()];
  return [
    ...all
      .filter(({ block }) => block.lines === undefined)
      .map(({ block, owners }) =>
        owners.length === left.length || block.kind === 'sign-off'
          ? block
          : ownedBlock(block, owners.join(', ')),
      ),
    ...uniteCautions(all.map(({ block }) => block)),
  ];
};

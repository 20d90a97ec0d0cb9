import { markBounds, moveMarks } from '../drawing/extent.ts';
import { letteringBox, textWidth } from '../drawing/lettering.ts';
import type { Box, Lettering, Mark } from '../drawing/model.ts';
import { clipFill, clipStroke, isStrokeIn } from '../drawing/path-clip.ts';
import { growBox, knockout, unionBox } from '../drawing/paths.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { isHolding, isOverlapping, moveBox, shareBox } from './box.ts';
import type { Grid, Tile } from './tile.ts';

/** Marks that stay together: a line of lettering and the white paper laid under it. */
interface Group {
  readonly marks: readonly Mark[];
  readonly box: Box;
  readonly text?: Lettering;
}

const isPaperUnder = (mark: Mark | undefined, text: Lettering): boolean =>
  mark?.kind === 'fill' &&
  mark.ink === 'white' &&
  isHolding(growBox(markBounds(mark), 0.5), letteringBox(text));

const groupMarks = (marks: readonly Mark[]): Group[] => {
  const groups: Group[] = [];
  marks.forEach((mark, i) => {
    const next = marks[i + 1];
    if (next?.kind === 'text' && isPaperUnder(mark, next)) return;
    const before = marks[i - 1];
    if (mark.kind === 'text' && before && isPaperUnder(before, mark)) {
      groups.push({
        marks: [before, mark],
        text: mark,
        box: unionBox([markBounds(before), markBounds(mark)]),
      });
      return;
    }
    groups.push({ marks: [mark], box: markBounds(mark), ...(mark.kind === 'text' ? { text: mark } : {}) });
  });
  return groups;
};

const clipMark = (mark: Mark, box: Box): Mark[] => {
  switch (mark.kind) {
    case 'stroke':
      return clipStroke(mark.path, box).map((path) => ({ ...mark, path }));
    case 'fill': {
      const path = clipFill(mark.path, box);
      return path ? [{ ...mark, path }] : [];
    }
    case 'text':
      return [];
  }
};

/** How much farther lettering is moved where it would come to stand on a line that is worked to, mm: nearest first. */
const STEPS_ASIDE: readonly Vec2[] = [3, 6, 9, 12, 16, 20, 26, 32].flatMap((far) =>
  [-1, 0, 1].flatMap((x) =>
    [-1, 0, 1].filter((y) => x !== 0 || y !== 0).map((y) => ({ x: x * far, y: y * far })),
  ),
);

/** How far a box must move to lie in another, or undefined where it is too big. */
const shiftInto = (box: Box, room: Box): { dx: number; dy: number } | undefined => {
  if (box.maxX - box.minX > room.maxX - room.minX || box.maxY - box.minY > room.maxY - room.minY)
    return undefined;
  const along = (min: number, max: number, low: number, high: number): number =>
    min < low ? low - min : max > high ? high - max : 0;
  return {
    dx: along(box.minX, box.maxX, room.minX, room.maxX),
    dy: along(box.minY, box.maxY, room.minY, room.maxY),
  };
};

const moveGroup = (group: Group, dx: number, dy: number): Group => ({
  marks: moveMarks(group.marks, dx, dy),
  box: moveBox(group.box, dx, dy),
});

const words = ({ marks, text }: Group): Group[] => {
  if (!text) return [];
  const width = textWidth(text.text, text.height, text.bold);
  const back = text.align === 'left' ? 0 : text.align === 'centre' ? width / 2 : width;
  const paper = marks
    .filter((mark) => mark !== text)
    .map((mark) => ({ marks: [mark], box: markBounds(mark) }));
  let before = '';
  const parts = text.text.split(' ').map((word): Group => {
    const along = textWidth(before, text.height, text.bold) - back;
    before += `${word} `;
    const at = { x: text.at.x + along * Math.cos(text.angle), y: text.at.y + along * Math.sin(text.angle) };
    const part: Lettering = { ...text, at, align: 'left', text: word };
    return { marks: [part], text: part, box: letteringBox(part) };
  });
  return [...paper, ...parts.filter(({ text: part }) => part?.text !== '')];
};

const isWorkedTo = (mark: Mark): boolean =>
  mark.kind === 'stroke' && (mark.role === 'cut' || mark.role === 'bend' || mark.role === 'punch');

/** True where a line that is worked to runs through a box. */
const meetsWorked = (box: Box, groups: readonly Group[]): boolean =>
  groups.some(
    (group) =>
      isOverlapping(group.box, box) &&
      group.marks.some((mark) => mark.kind === 'stroke' && isWorkedTo(mark) && isStrokeIn(mark.path, box)),
  );

/** Moved lettering with white paper under it where it came to stand on a line, though never on one that is worked to. */
const onPaper = (group: Group, groups: readonly Group[]): Group => {
  if (group.marks.length > 1) return group;
  const under = groups.flatMap(({ marks, box }) =>
    isOverlapping(box, group.box)
      ? marks.filter((mark) => mark.kind === 'stroke' && isStrokeIn(mark.path, group.box))
      : [],
  );
  return under.length === 0 || under.some(isWorkedTo)
    ? group
    : { ...group, marks: [knockout('text', growBox(group.box, 0.4)), ...group.marks] };
};

const centreOf = (box: Box) => ({ x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 });

const holdsCentre = ({ own }: Tile, box: Box): boolean => {
  const { x, y } = centreOf(box);
  return x >= own.minX && x <= own.maxX && y >= own.minY && y <= own.maxY;
};

/** White space kept between lettering and a tile's frame, mm. */
const clear = 0.6;

/**
 * Where lettering may be moved on a tile: anywhere, off the strips it shares with its neighbors, or off those that the tiles
 * at the right and below cover. A strip is the crosses' ground: going clear of it is worth a longer move.
 */
const roomsOf = ({ window, row, column }: Tile, tiles: readonly Tile[], overlap: number) => {
  const strip = (down: number, right: number): number =>
    tiles.some((other) => other.row === row + down && other.column === column + right) ? overlap : 0;
  const room = (left: number, above: number): Box =>
    growBox(
      {
        minX: window.minX + left,
        maxX: window.maxX - strip(0, 1),
        minY: window.minY + strip(1, 0),
        maxY: window.maxY - above,
      },
      -clear,
    );
  return [
    { room: growBox(window, -clear), onStrip: overlap },
    { room: room(0, 0), onStrip: overlap / 2 },
    { room: room(strip(0, -1), strip(-1, 0)), onStrip: 0 },
  ];
};

/** True where a tile holds lettering and no tile that is taped over it hides a part, unless that one shows the whole. */
const isSeen = (box: Box, tiles: readonly Tile[], index: number): boolean => {
  const holds = ({ window }: Tile): boolean => isHolding(growBox(window, -clear), box);
  const [tile, ...later] = tiles.slice(index);
  return (
    tile !== undefined &&
    holds(tile) &&
    later.every((over) => !isOverlapping(over.window, box) || holds(over))
  );
};

/**
 * Shares a sheet's marks out among its tiles, still in sheet mm. Lines and fills are cut at the frames. Lettering is
 * never cut: it stands on every tile that holds it whole and in sight; where none does it is moved along until its own tile
 * holds it so, or, where it would then stand on other lettering, it is set word by word.
 */
export const shareMarks = (
  marks: readonly Mark[],
  { tiles, overlap }: Pick<Grid, 'tiles' | 'overlap'>,
): Mark[][] => {
  const groups = groupMarks(marks);
  const texts = groups.filter((group) => group.text);
  const shares = tiles.map((): Mark[] => []);
  const give = (group: Group, index: number): void => void shares[index]?.push(...group.marks);

  /** Where lettering has been moved to. */
  const before: Box[] = [];

  /** Where lettering may be moved to, best first; each place also so far aside. */
  const findMoves = (group: Group, aside: readonly Vec2[]) =>
    tiles
      .flatMap((tile, index) =>
        shareBox(tile.window, group.box) === undefined
          ? []
          : roomsOf(tile, tiles, overlap).flatMap(({ room, onStrip }) =>
              aside.flatMap(({ x, y }) => {
                const shift = shiftInto(moveBox(group.box, x, y), room);
                return shift ? [{ index, tile, dx: x + shift.dx, dy: y + shift.dy, onStrip }] : [];
              }),
            ),
      )
      .map(({ index, tile, dx, dy, onStrip }) => {
        const moved = moveGroup(group, dx, dy);
        const size = Math.abs(dx) + Math.abs(dy) + onStrip;
        const meets =
          texts.some((other) => other !== group && isOverlapping(growBox(other.box, 0.4), moved.box)) ||
          before.some((box) => isOverlapping(growBox(box, 0.4), moved.box));
        const isStruck = meetsWorked(moved.box, groups);
        const isHidden = !isSeen(moved.box, tiles, index);
        const rank = 4 * Number(meets) + 2 * Number(isStruck) + Number(isHidden);
        return {
          index,
          moved,
          meets,
          isStruck,
          rank,
          size: size - (holdsCentre(tile, group.box) ? 1e-6 : 0),
        };
      })
      // Other lettering must not be met, nor a line that is worked to; if it can be, nothing of it is hidden.
      .sort((a, b) => a.rank - b.rank || a.size - b.size);

  const placeMoved = (group: Group, canSplit: boolean): void => {
    const [near] = findMoves(group, [{ x: 0, y: 0 }]);
    const best = near?.isStruck === true && !near.meets ? findMoves(group, STEPS_ASIDE)[0] : near;
    if (canSplit && (!best || best.meets)) {
      for (const part of words(group)) place(part, false);
      return;
    }
    if (!best) return;
    before.push(best.moved.box);
    give(onPaper(best.moved, groups), best.index);
  };

  const place = (group: Group, canSplit: boolean): void => {
    if (!group.text) {
      tiles.forEach(({ window }, index) => {
        if (!isOverlapping(group.box, window)) return;
        shares[index]?.push(...group.marks.flatMap((mark) => clipMark(mark, window)));
      });
      return;
    }
    const holders = tiles.flatMap((_, index) => (isSeen(group.box, tiles, index) ? [index] : []));
    if (holders.length > 0) for (const index of holders) give(group, index);
    else placeMoved(group, canSplit && group.text.text.includes(' '));
  };

  for (const group of groups) place(group, true);
  return shares;
};

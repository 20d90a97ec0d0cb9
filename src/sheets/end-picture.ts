import { boxesMeet } from '../drawing/clear.ts';
import { markBounds } from '../drawing/extent.ts';
import type { Mark, Path, Picture } from '../drawing/model.ts';
import { arcPath, arrowhead, FINE, growBox, polylinePath } from '../drawing/paths.ts';
import { makePicture, viewPath, viewRule, viewText } from '../drawing/view.ts';
import { runOf, type SectionEdge } from '../geometry/section.ts';
import { add2, polar2, scale2, sub2, unit2, type Vec2 } from '../geometry/vector.ts';
import { stationNumber } from '../stock/station.ts';
import { stockReach, type Stock } from '../stock/stock.ts';
import { onPaper } from './flat-marks.ts';
import { translateName } from '../words/say.ts';

const RADIUS = 15;
/** How deep below a face the steel is looked at for which way the face looks, mm. */
const INTO = 0.1;

/** A contour of a section as a picture's closed line. */
const contourPicture = (contour: readonly SectionEdge[], see: (p: Vec2) => Vec2): Path =>
  polylinePath(
    contour.flatMap((edge) => {
      const run = runOf(edge);
      const count = edge.kind === 'line' ? 1 : 72;
      return Array.from({ length: count }, (_, i) => see(run.at((run.length * i) / count).point));
    }),
    true,
  );

/**
 * The stock seen facing its cut end, station 0 on top: stations rise counter-clockwise, or clockwise where `numbersFall`
 * (the far end of a piece).
 * @param words what stands beside stations 0, 90, 180 and 270
 */
export const endPicture = (
  title: string,
  stock: Stock,
  words: readonly string[],
  extra: readonly { readonly angle: number; readonly text: string }[] = [],
  numbersFall = false,
): Picture => {
  const sense = numbersFall ? -1 : 1;
  const scale = RADIUS / stockReach(stock);
  // Position 0 is on top, and y runs to the left.
  const see = ({ x, y }: Vec2): Vec2 => ({ x: -y * scale, y: x * scale });
  const { outside, inside } = stock.section;
  const o = { x: 0, y: 0 };
  const place = (angle: number, r: number) => polar2(r, sense * angle + Math.PI / 2);
  const marks: Mark[] = [
    viewPath(contourPicture(outside, see)),
    ...(inside ? [viewPath(contourPicture(inside, see), FINE)] : []),
    viewRule({ x: -RADIUS - 2.5, y: 0 }, { x: RADIUS + 2.5, y: 0 }, FINE, 'long-dash-dot'),
    viewRule({ x: 0, y: -RADIUS - 2.5 }, { x: 0, y: RADIUS + 2.5 }, FINE, 'long-dash-dot'),
  ];
  if (stock.kind !== 'pipe') {
    for (const { s, name, kind } of stock.lines) {
      if (kind !== 'middle') continue;
      // Straight out from its face, off the steel.
      const at = see(stock.outline.at(s, 0));
      const out = unit2(sub2(at, see(stock.outline.at(s, INTO))));
      const label = add2(at, scale2(out, 3.5));
      marks.push(
        ...viewText(
          label,
          translateName(name),
          out.x > 0.5 ? 'left' : out.x < -0.5 ? 'right' : 'centre',
          s === 0,
        ),
      );
    }
    return makePicture(title, marks);
  }
  words.forEach((word, quarter) => {
    const number = stationNumber((quarter * Math.PI) / 2);
    const isLeft = quarter === (numbersFall ? 3 : 1);
    const text = isLeft ? `${word} ${number}` : `${number} ${word}`;
    const align = quarter % 2 === 0 ? 'centre' : isLeft ? 'right' : 'left';
    const gap = quarter % 2 === 0 ? RADIUS + 5 : RADIUS + 3.5;
    marks.push(...viewText(place((quarter * Math.PI) / 2, gap), text.trim(), align, quarter === 0));
  });
  const leaders: Mark[] = [];
  for (const { angle, text } of extra) {
    const taken = marks.filter(({ kind }) => kind === 'text').map(markBounds);
    // As near to the pipe as the labels before it leave room.
    const tries = Array.from({ length: 24 }, (_, i) => {
      const radius = RADIUS + 5 + 1.5 * i;
      const at = place(angle, radius);
      const align = at.x > 1 ? 'left' : at.x < -1 ? 'right' : 'centre';
      return { radius, words: viewText(at, text, align) };
    });
    const isClear = ({ words }: (typeof tries)[number]): boolean =>
      !words.some((word) => taken.some((box) => boxesMeet(box, growBox(markBounds(word), 0.3))));
    const found = tries.find(isClear) ?? tries[0];
    if (!found) continue;
    leaders.push(viewRule(place(angle, RADIUS), place(angle, found.radius - 1)));
    marks.push(...found.words);
  }
  // Which way the numbers rise.
  const [from, to] = [Math.PI / 2 + sense * 0.35, Math.PI / 2 + sense * 1.15];
  const r = RADIUS * 0.62;
  marks.push(
    viewPath(arcPath(o, r, from, to), FINE),
    arrowhead('dimension', polar2(r, to), polar2(1, to + sense * (Math.PI / 2 - 0.1)), 2),
  );
  // A leader that passes by another label goes under it.
  return makePicture(title, [
    ...leaders,
    ...marks.flatMap((mark) => (mark.kind === 'text' && leaders.length > 0 ? onPaper(mark, 0.3) : [mark])),
  ]);
};

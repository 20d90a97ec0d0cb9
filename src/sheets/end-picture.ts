import type { Mark, Picture } from '../drawing/model.ts';
import { arcPath, arrowhead, circlePath, FINE, QUARTER, ruleLine, stroke } from '../drawing/shape.ts';
import { makePicture, viewText } from '../drawing/view.ts';
import { polar2 } from '../geometry/vector.ts';
import type { Pipe } from '../stock/pipe.ts';
import { stationNumber } from '../stock/station.ts';

const RADIUS = 15;

/**
 * The pipe seen facing its cut end, station 0 on top: stations rise counter-clockwise, or clockwise where `numbersFall`
 * (the far end of a piece).
 * @param words what stands beside stations 0, 90, 180 and 270
 */
export const endPicture = (
  title: string,
  pipe: Pipe,
  words: readonly [string, string, string, string],
  extra: readonly { readonly angle: number; readonly text: string }[] = [],
  numbersFall = false,
): Picture => {
  const sense = numbersFall ? -1 : 1;
  const bore = (RADIUS * (pipe.od - 2 * pipe.wall)) / pipe.od;
  const o = { x: 0, y: 0 };
  const place = (angle: number, r: number) => polar2(r, sense * angle + Math.PI / 2);
  const marks: Mark[] = [
    stroke('dimension', circlePath(o, RADIUS), QUARTER),
    stroke('dimension', circlePath(o, bore), FINE),
    ruleLine('dimension', { x: -RADIUS - 2.5, y: 0 }, { x: RADIUS + 2.5, y: 0 }, FINE, 'long-dash-dot'),
    ruleLine('dimension', { x: 0, y: -RADIUS - 2.5 }, { x: 0, y: RADIUS + 2.5 }, FINE, 'long-dash-dot'),
  ];
  words.forEach((word, quarter) => {
    const number = stationNumber((quarter * Math.PI) / 2);
    const isLeft = quarter === (numbersFall ? 3 : 1);
    const text = isLeft ? `${word} ${number}` : `${number} ${word}`;
    const align = quarter % 2 === 0 ? 'centre' : isLeft ? 'right' : 'left';
    const gap = quarter % 2 === 0 ? RADIUS + 5 : RADIUS + 3.5;
    marks.push(...viewText(place((quarter * Math.PI) / 2, gap), text.trim(), align, quarter === 0));
  });
  for (const { angle, text } of extra) {
    const [at, out] = [place(angle, RADIUS), place(angle, RADIUS + 4)];
    const label = place(angle, RADIUS + 5);
    const align = label.x > 1 ? 'left' : label.x < -1 ? 'right' : 'centre';
    marks.push(ruleLine('dimension', at, out, QUARTER), ...viewText(label, text, align));
  }
  // Which way the numbers rise.
  const [from, to] = [Math.PI / 2 + sense * 0.35, Math.PI / 2 + sense * 1.15];
  const r = RADIUS * 0.62;
  marks.push(
    stroke('dimension', arcPath(o, r, from, to), FINE),
    arrowhead('dimension', polar2(r, to), polar2(1, to + sense * (Math.PI / 2 - 0.1)), 2),
  );
  return makePicture(title, marks);
};

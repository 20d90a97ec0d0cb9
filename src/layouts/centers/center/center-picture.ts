import type { Mark, Picture } from '../../../drawing/model.ts';
import { boxPath, circlePath, FINE, MEDIUM } from '../../../drawing/paths.ts';
import { makePicture, viewPath, viewRule, viewText } from '../../../drawing/view.ts';
import { say } from '../../../words/say.ts';
import { placeWindows, windowPath } from './center-windows.ts';

const SIZE = 34;
const HALF = 23;

/** The sheet on the stock: the edge shows through the windows and meets the line at their ends. */
export const centerPicture = (windows: boolean): Picture => {
  const o = { x: 0, y: 0 };
  const { spans } = placeWindows(SIZE);
  const marks: Mark[] = [
    viewPath(boxPath({ minX: -HALF, maxX: HALF, minY: -HALF, maxY: HALF })),
    viewPath(circlePath(o, SIZE / 2), FINE, 'dashed'),
    viewRule({ x: -HALF + 2, y: 0 }, { x: HALF - 2, y: 0 }, FINE, 'long-dash-dot'),
    viewRule({ x: 0, y: -HALF + 2 }, { x: 0, y: HALF - 2 }, FINE, 'long-dash-dot'),
    viewPath(circlePath(o, 1.4), FINE),
  ];
  if (windows)
    for (const span of spans) {
      marks.push(viewPath(windowPath(SIZE, span)));
      marks.push(windowEdge(span));
    }
  if (windows) {
    const tip = { x: (SIZE / 2) * Math.SQRT1_2, y: (SIZE / 2) * Math.SQRT1_2 };
    const foot = { x: HALF + 2, y: tip.y + 4 };
    marks.push(viewRule(tip, foot, FINE), ...viewText({ x: foot.x + 1, y: foot.y }, say`edge`, 'left'));
  }
  return makePicture(
    windows
      ? say`The sheet on the stock: its edge, heavy, fills the gap in the line at every window`
      : say`The sheet on the stock`,
    marks,
  );
};

const windowEdge = ({ from, to }: { readonly from: number; readonly to: number }) => {
  const count = 8;
  const points = Array.from({ length: count + 1 }, (_, i) => {
    const angle = from + ((to - from) * i) / count;
    return { x: (SIZE / 2) * Math.cos(angle), y: (SIZE / 2) * Math.sin(angle) };
  });
  const [start, ...rest] = points as [(typeof points)[number], ...typeof points];
  return viewPath(
    { start, segments: rest.map((to) => ({ kind: 'line' as const, to })), closed: false },
    MEDIUM,
  );
};

import { contourPath } from '../../../drawing/contour-path.ts';
import type { Mark, Path, Picture } from '../../../drawing/model.ts';
import { circlePath, FINE, mapPath, QUARTER, WIDE } from '../../../drawing/paths.ts';
import { makePicture, viewDimension, viewPath, viewRule, viewText } from '../../../drawing/view.ts';
import { polar2, scale2, vec2, type Vec2 } from '../../../geometry/vector.ts';
import { writePlain } from '../../../sheets/arcs.ts';
import { slotPath } from '../../../sheets/flat-marks.ts';
import type { Setting } from '../../../units/setting.ts';
import { say } from '../../../words/say.ts';
import type { PlateAsked } from './plate-fields.ts';
import { partBox } from './plate-marks.ts';
import { boreContour, type PlatePart } from './plate-part.ts';

/** The part with its main dimensions, seen on the printed side. */
export const platePicture = (part: PlatePart, asked: PlateAsked, setting: Setting): Picture => {
  const box = partBox(part);
  const scale = Math.min(44 / (box.maxX - box.minX), 38 / (box.maxY - box.minY));
  const small = (p: Vec2): Vec2 => scale2(p, scale);
  const draw = (path: Path, width: number, line: 'continuous' | 'dashed' = 'continuous'): Mark =>
    viewPath(mapPath(path, small), width, line);
  const write = (length: number): string => writePlain(length, setting);
  const { holes, bore, footprint, round } = part;
  const marks: Mark[] = [
    draw(contourPath(part.contour), WIDE),
    ...(bore === undefined ? [] : [draw(contourPath(boreContour(bore)), QUARTER)]),
    ...(footprint ? [draw(contourPath(footprint.contour), FINE, 'dashed')] : []),
    ...holes.map(({ at, diameter, slot }) =>
      draw(
        slot
          ? slotPath(at, diameter, slot.length, slot.along)
          : circlePath(at, Math.max(diameter / 2, 0.4 / scale)),
        QUARTER,
      ),
    ),
  ];
  const low = small(vec2(box.minX, box.minY));
  const high = small(vec2(box.maxX, box.maxY));
  if (asked.shape === 'gusset') marks.push(...gussetView(part, asked, small, write));
  else if (round) {
    marks.push(...viewText(vec2(0, low.y - 4), `⌀ ${write(part.width)}`));
  } else {
    marks.push(
      ...viewDimension(low, vec2(high.x, low.y), -5, write(part.width)),
      ...viewDimension(vec2(low.x, high.y), low, -4, write(part.height)),
    );
    const first = holes[0];
    if (first && asked.holeAt.length === 0 && part.circle === undefined) {
      const at = small(first.at);
      if (at.x - low.x > 0.5)
        marks.push(
          ...viewDimension(vec2(low.x, high.y), vec2(at.x, high.y), 4, write(first.at.x - box.minX)),
          viewRule(vec2(at.x, at.y), vec2(at.x, high.y), FINE, 'long-dash-dot'),
        );
    }
  }
  return makePicture(say`The ${part.heading.toLowerCase()}, seen on the printed side`, marks);
};

const gussetView = (
  part: PlatePart,
  { width: foot = 0, height: upright = 0, angle, cope }: PlateAsked,
  small: (p: Vec2) => Vec2,
  write: (length: number) => string,
): Mark[] => {
  const head = small(polar2(upright, angle));
  const o = vec2(0, 0);
  const toe = small(vec2(foot, 0));
  const arc = part.contour.find((edge) => edge.kind === 'arc');
  const past = (p: Vec2): Vec2 => scale2(p, 1 + 5 / Math.hypot(p.x, p.y));
  return [
    // The parts the gusset stands between.
    viewRule(vec2(-3, -0.7), vec2(toe.x + 5, -0.7), FINE),
    viewRule(vec2(-0.7 * Math.sin(angle), 0.7 * Math.cos(angle)), past(head), FINE),
    ...(cope && arc?.kind === 'arc'
      ? [viewPath(circlePath(small(arc.centre), small(vec2(cope.od / 2, 0)).x), FINE, 'dashed')]
      : []),
    ...viewDimension(o, toe, -5, write(foot)),
    ...viewDimension(head, o, -5, write(upright)),
  ];
};

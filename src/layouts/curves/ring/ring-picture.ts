import type { Mark, Picture } from '../../../drawing/model.ts';
import { arcPath, circlePath, FINE, WIDE } from '../../../drawing/paths.ts';
import { makePicture, viewPath, viewRule, viewText } from '../../../drawing/view.ts';
import type { Ring } from '../../../geometry/ring-segment.ts';
import { polar2, vec2 } from '../../../geometry/vector.ts';
import { writePlain } from '../../../sheets/arcs.ts';
import { formatAngle } from '../../../units/angle.ts';
import type { Setting } from '../../../units/setting.ts';
import { say } from '../../../words/say.ts';

const RADIUS = 20;

/** The ring with its joints, the segment that is drawn in heavy lines. */
export const ringPicture = ({ outside, inside, segments }: Ring, setting: Setting): Picture => {
  const o = vec2(0, 0);
  const bore = (RADIUS * inside) / outside;
  const half = Math.PI / segments;
  const top = Math.PI / 2;
  const joint = (angle: number, width: number): Mark =>
    viewRule(polar2(bore, angle), polar2(RADIUS, angle), width);
  const heavy: Mark[] =
    segments === 1
      ? []
      : [
          ...[RADIUS, bore].map((r) => viewPath(arcPath(o, r, top - half, top + half), WIDE)),
          joint(top - half, WIDE),
          joint(top + half, WIDE),
        ];
  const marks: Mark[] = [
    viewPath(circlePath(o, RADIUS)),
    viewPath(circlePath(o, bore)),
    ...(segments > 1 && segments <= 60
      ? Array.from({ length: segments }, (_, i) => joint(top + half * (2 * i + 1), FINE))
      : []),
    ...heavy,
    ...viewText(vec2(0, -RADIUS - 3.5), say`outside ⌀ ${writePlain(outside, setting)}`),
    ...(bore > 9
      ? viewText(vec2(0, 0), `⌀ ${writePlain(inside, setting)}`)
      : viewText(vec2(0, -RADIUS - 7.5), say`inside ⌀ ${writePlain(inside, setting)}`)),
  ];
  return makePicture(
    segments === 1
      ? say`The ring, seen flat`
      : say`The ring of ${segments} segments, ${formatAngle(2 * half)} each, seen flat`,
    marks,
  );
};

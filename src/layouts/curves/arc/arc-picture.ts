import type { Mark, Picture } from '../../../drawing/model.ts';
import { arcPath, FINE, WIDE } from '../../../drawing/paths.ts';
import { makePicture, viewDimension, viewPath, viewRule, viewText } from '../../../drawing/view.ts';
import { arcByAngle, arcPoint, type Arc } from '../../../geometry/chord-arc.ts';
import { vec2 } from '../../../geometry/vector.ts';
import { writePlain } from '../../../sheets/arcs.ts';
import type { Setting } from '../../../units/setting.ts';
import { say } from '../../../words/say.ts';

const SPAN = 50;

/** The whole arc over its chord with its joints; a flat one is drawn with more rise than it has. */
export const arcPicture = (whole: Arc, segments: number, setting: Setting): Picture => {
  const angle = Math.max(whole.angle, Math.PI / 4);
  const unit = arcByAngle(1, angle);
  const scale = Math.min(SPAN / (angle < Math.PI ? unit.chord : 2), 34 / unit.rise);
  const small = arcByAngle(scale, angle);
  const [left, right] = [arcPoint(small, angle / 2), arcPoint(small, -angle / 2)];
  const write = (length: number): string => writePlain(length, setting);
  const centre = vec2(0, small.rise - small.radius);
  const joints =
    segments > 1 && segments <= 40
      ? Array.from({ length: segments + 1 }, (_, i) =>
          arcPoint(small, (angle * (2 * i - segments)) / (2 * segments)),
        )
      : [];
  const marks: Mark[] = [
    viewPath(arcPath(centre, small.radius, Math.PI / 2 - angle / 2, Math.PI / 2 + angle / 2), WIDE),
    viewRule(left, right, FINE),
    viewRule(vec2(0, 0), vec2(0, small.rise), FINE),
    ...joints.map((p) => {
      const out = { x: (p.x - centre.x) / small.radius, y: (p.y - centre.y) / small.radius };
      return viewRule({ x: p.x - out.x, y: p.y - out.y }, { x: p.x + 2 * out.x, y: p.y + 2 * out.y }, FINE);
    }),
    ...viewDimension(left, right, -5, say`chord ${write(whole.chord)}`),
    ...viewText(vec2(1.4, small.rise / 2), say`rise ${write(whole.rise)}`, 'left'),
    ...viewText(vec2(0, small.rise + 4.5), `R ${write(whole.radius)}`),
  ];
  const shown = angle > whole.angle + 1e-9 ? say`the rise drawn larger` : say`seen flat`;
  return makePicture(
    segments > 1 ? say`The whole arc and its joints, ${shown}` : say`The arc over its chord, ${shown}`,
    marks,
  );
};

import type { Mate } from '../mate.ts';
import { add3, cross3, scale3, type Vec3 } from '../vector.ts';
import { boxMate } from './box.ts';

/**
 * A plate of finite size as a mate, with sharp edges.
 * @param centre middle of its face
 * @param normal unit direction out of that face
 * @param lengthwise unit direction of its length, in the face
 */
export const plateMate = (
  centre: Vec3,
  normal: Vec3,
  lengthwise: Vec3,
  {
    length,
    width,
    thickness,
  }: { readonly length: number; readonly width: number; readonly thickness: number },
): Mate =>
  boxMate({
    centre: add3(centre, scale3(normal, -thickness / 2)),
    axis: lengthwise,
    across: cross3(normal, lengthwise),
    width,
    depth: thickness,
    corner: 0,
    length,
  });

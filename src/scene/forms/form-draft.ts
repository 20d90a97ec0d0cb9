import { numberAt } from '../../lists.ts';
import { unit3, vec3, type Vec3 } from '../../geometry/vector.ts';

/** A form that is being cut: new points and normals are added at the end. */
export interface Draft {
  readonly positions: number[];
  readonly normals: number[];
  /** Six numbers a triangle, as in a form. */
  readonly corners: readonly number[];
}

export const addPoint = ({ positions }: Draft, { x, y, z }: Vec3): number => positions.push(x, y, z) / 3 - 1;
export const addNormal = ({ normals }: Draft, { x, y, z }: Vec3): number => normals.push(x, y, z) / 3 - 1;

/** A normal between others by their shares. */
export const addMixedNormal = (draft: Draft, list: readonly number[], shares: readonly number[]): number => {
  const sum = [0, 0, 0];
  list.forEach((n, i) => {
    for (let k = 0; k < 3; k++)
      sum[k] = numberAt(sum, k) + numberAt(draft.normals, 3 * n + k) * numberAt(shares, i);
  });
  return addNormal(draft, unit3(vec3(numberAt(sum, 0), numberAt(sum, 1), numberAt(sum, 2))));
};

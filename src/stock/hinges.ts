import { contourOutline } from '../geometry/contour-outline.ts';
import type { Stock } from './stock.ts';

/** A wall of a stock that can stay whole and bend while the others are notched. */
export interface Hinge {
  /** The face it is called by. */
  readonly face: string;
  /** Thickness of that wall, mm. */
  readonly thickness: number;
}

/** Every wall that can be a hinge, the usual one first: it leaves position 0 in the middle of the notch, or the web whole. */
export const hingesOf = (stock: Stock): readonly Hinge[] => {
  const { rolled } = stock;
  if (rolled?.kind === 'angle')
    return ['leg 1', 'leg 2'].map((face) => ({ face, thickness: rolled.thickness }));
  if (rolled)
    return [
      ...(rolled.kind === 'channel' ? [{ face: 'web', thickness: rolled.web }] : []),
      { face: 'flange 1', thickness: rolled.flange },
      { face: 'flange 2', thickness: rolled.flange },
    ];
  const faces = contourOutline(stock.section).faces.filter(({ flat, face }) => flat && face !== undefined);
  const names = [...new Set(faces.map(({ face }) => face ?? ''))];
  if (stock.kind === 'flat') {
    // A flat bar bends the easy way: a broad face is the hinge, and the whole thickness is in it.
    const [x = 0, y = 0] = stock.sizes.map(({ length }) => length);
    const broad = x >= y ? ['face 4', 'face 2'] : ['face 3', 'face 1'];
    return broad.map((face) => ({ face, thickness: Math.min(x, y) }));
  }
  const usual = names.includes('face 3') ? 'face 3' : names[0];
  return [...names]
    .sort((a, b) => Number(b === usual) - Number(a === usual))
    .map((face) => ({ face, thickness: stock.wall }));
};

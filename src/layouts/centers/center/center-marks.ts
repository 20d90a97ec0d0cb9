import { markBounds } from '../../../drawing/extent.ts';
import type { Box, Lettering, Mark } from '../../../drawing/model.ts';
import {
  circlePath,
  FINE,
  letter,
  MEDIUM,
  NARROW,
  QUARTER,
  ruleLine,
  stroke,
} from '../../../drawing/paths.ts';
import { polar2 } from '../../../geometry/vector.ts';
import { degreeRing } from '../../../sheets/degree-ring.ts';
import {
  centreLines,
  circleBoxes,
  drawPunch,
  drawTarget,
  onPaper,
  placeClear,
} from '../../../sheets/flat-marks.ts';
import { axisBoxes, labelRings } from '../../../sheets/labeled-rings.ts';
import { stationNumber } from '../../../stock/station.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeGiven } from '../../../units/writing.ts';
import { placeWindows, windowPath, windowsAround } from './center-windows.ts';

const ORIGIN = { x: 0, y: 0 };

/** What the overlay shows, mm and radians. */
export interface Overlay {
  readonly diameter: number;
  readonly rings: readonly number[];
  readonly steps: readonly number[];
  readonly punch: readonly number[];
  readonly windows: boolean;
}

/** Where punch marks lie: on the rings, else on the edge. */
export const punchedRings = ({ diameter, rings }: Overlay): readonly number[] =>
  rings.length > 0 ? rings : [diameter];

/** Degrees of the punch marks that lie where windows are cut. */
const edgeMarks = (overlay: Overlay): readonly number[] => {
  const { diameter, punch } = overlay;
  const { reach } = placeWindows(diameter);
  return punchedRings(overlay).some((ring) => (diameter - ring) / 2 < reach + 2.5) ? punch : [];
};

/** Circles larger than this have their degrees inside the edge, on the stock, where they take no paper of their own. */
const smallest = 120;

/** Where the degree ring stands: clear of the windows, outside them or inside. */
const placeDegrees = ({ diameter }: Overlay): { readonly base: number; readonly side: 1 | -1 } => {
  const side = diameter > smallest ? -1 : 1;
  return { side, base: diameter / 2 + side * (placeWindows(diameter).reach + 1.5) };
};

/** The overlay's full-size lines. */
export const centerMarks = (overlay: Overlay, setting: Setting): Mark[] => {
  const { diameter, rings, steps, punch } = overlay;
  const radius = diameter / 2;
  const { base, side } = placeDegrees(overlay);
  const reach = Math.max(base, radius);
  const target = Math.min(2, radius / 6);
  const free = steps.filter((step) => [...rings, diameter].every((ring) => Math.abs(ring - step) > 0.2));
  const crosses = punchedRings(overlay).flatMap((ring) =>
    punch.flatMap((angle) => drawPunch(polar2(ring / 2, angle), ring === diameter ? 2 : 2.5)),
  );
  const degrees = degreeRing({ centre: ORIGIN, radius: base, side });
  const lines = [...free, ...rings, diameter].flatMap((ring) => circleBoxes(ORIGIN, ring));
  // Outside the edge the ring's own number names the degree; a second one would only take paper.
  const numbered = new Set(degrees.map((mark) => (mark.kind === 'text' ? `${mark.text}°` : '')));
  const unnamed = punch.filter((angle) => side === -1 || !numbered.has(stationNumber(angle)));
  const named = unnamed.map((angle) => {
    const places = [3.5, 2.5].flatMap((height) =>
      Array.from({ length: 13 }, (_, i) =>
        letter('text', polar2(base + side * (16 + 2 * i), angle), stationNumber(angle), height, {
          align: 'centre',
          valign: 'middle',
          bold: true,
        }),
      ),
    );
    const taken = [...lines, ...degrees.map(markBounds), ...crosses.map(markBounds)];
    return placeClear(places as [Lettering, ...Lettering[]], taken, 0.3);
  });
  const taken = [
    ...axisBoxes(reach),
    ...degrees.map(markBounds),
    ...named.map(markBounds),
    ...crosses.map(markBounds),
    ...punch.flatMap((angle) => rayBoxes(angle, reach)),
  ];
  return [
    ...free.map((ring) => stroke('reference', circlePath(ORIGIN, ring / 2), FINE)),
    ...centreLines(ORIGIN, reach, reach),
    ...punch.map((angle) => ruleLine('station', polar2(3 * target, angle), polar2(reach, angle), NARROW)),
    ...degrees,
    ...named.flatMap((name) => onPaper(name)),
    ...rings
      .filter((ring) => ring !== diameter)
      .map((ring) => stroke('cut', circlePath(ORIGIN, ring / 2), QUARTER)),
    stroke('cut', circlePath(ORIGIN, radius), NARROW),
    ...(overlay.windows
      ? windowsAround(diameter, edgeMarks(overlay)).map((span) =>
          stroke('cut', windowPath(diameter, span), MEDIUM),
        )
      : []),
    ...labelRings(
      [
        ...free.map((ring) => ({ diameter: ring, text: writeGiven(ring, setting), side: 1 as const })),
        ...rings.map((ring) => ({
          diameter: ring,
          text: `⌀ ${writeGiven(ring, setting)}`,
          side: 1 as const,
        })),
      ],
      [...free, ...rings, diameter],
      taken,
    ),
    ...crosses,
    ...drawTarget(ORIGIN, target),
  ];
};

/** Small boxes along a line from the center, which labels keep clear of. */
const rayBoxes = (angle: number, reach: number): Box[] =>
  Array.from({ length: Math.ceil(reach / 1.5) }, (_, i) => {
    const { x, y } = polar2(i * 1.5, angle);
    return { minX: x - 0.5, maxX: x + 0.5, minY: y - 0.5, maxY: y + 0.5 };
  });

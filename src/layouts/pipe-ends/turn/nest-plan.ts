import type { Measured } from '../../../drawing/measured.ts';
import type { Figure, Mark, Picture, Table } from '../../../drawing/model.ts';
import { FINE, MEDIUM } from '../../../drawing/paths.ts';
import { fitView, makePicture, viewDimension, viewLine, viewText } from '../../../drawing/view.ts';
import { halfGap, type Gore } from '../../../geometry/turn.ts';
import { vec3 } from '../../../geometry/vector.ts';
import { shown } from '../../../sheets/measured.ts';
import { angleOf, lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth, writeShort } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import type { TurnRequest } from './turn-request.ts';

/** A gore's place on the straight pipe. */
export interface Nested {
  readonly gore: Gore;
  /** Whether it is rotated 180°, so that its throat lies in line with its neighbours' heels. */
  readonly turned: boolean;
  /** Height of its mid-length above the pipe's square end, mm. */
  readonly middle: number;
  /** Saw cut along the axis above it; 0 above the last. */
  readonly kerf: number;
}

/**
 * All gores on one straight pipe, every other one rotated 180°: the cut above one is then the cut below the next,
 * less the saw's kerf, which is kerf / cos(cut) along the axis. A root gap is already off the pieces.
 * @returns the places, and the length of pipe they take
 */
export const nestGores = ({
  gores,
  kerf,
  gap,
}: Pick<TurnRequest, 'gores' | 'kerf' | 'gap'>): {
  readonly places: readonly Nested[];
  readonly length: number;
} => {
  let at = 0;
  const places = gores.map((gore, i): Nested => {
    const below = halfGap(gap, gore.lower);
    const above = halfGap(gap, gore.upper);
    const width = gore.upper > 0 ? kerf / Math.cos(gore.upper) : 0;
    const place = { gore, turned: i % 2 === 1, middle: at + gore.centre / 2 - below, kerf: width };
    at += gore.centre - below - above + width;
    return place;
  });
  return { places, length: at };
};

/**
 * Where each saw cut runs, along the pipe's quarter lines. `measured` says how a height above the square end is measured along a
 * quarter line of the first gore, where the nest is drawn.
 */
export const sawCuts = (
  request: TurnRequest,
  measured: (quarter: 0 | 1 | 2, height: number, under: number) => Measured | undefined = () => undefined,
): Table => {
  const { throat, heel } = request.shape;
  const { places } = nestGores(request);
  return {
    title: say`Middle of each saw cut, from the square end`,
    header: [say`Cut`, say`saw at`, '0°', say`sides`, '180°'],
    rows: places.slice(0, -1).map(({ gore, turned, middle, kerf }) => {
      const side = middle + gore.centre / 2 - halfGap(request.gap, gore.upper) + kerf / 2;
      const slope = (turned ? 1 : -1) * Math.tan(gore.upper);
      /** The middle of a saw cut, from its lower line half the cut's width up. */
      const at = (quarter: 0 | 1 | 2, height: number): Figure =>
        shown(lengthOf(height), measured(quarter, height - kerf / 2, kerf / 2));
      return [
        `${gore.number}/${gore.number + 1}`,
        angleOf(gore.upper),
        at(0, side + slope * throat),
        at(1, side),
        at(2, side - slope * heel),
      ];
    }),
  };
};

/** The straight pipe with its cuts, seen from station 90 of the first gore. */
export const nestPicture = (request: TurnRequest, setting: Setting): Picture => {
  const { places, length } = nestGores(request);
  // Both sides are alike on stock that nests.
  const r = request.shape.throat;
  const corners = [vec3(r, 0, 0), vec3(r, 0, length), vec3(-r, 0, length), vec3(-r, 0, 0), vec3(r, 0, 0)];
  const { project, scale } = fitView({ right: vec3(-1, 0, 0), up: vec3(0, 0, 1) }, corners, 34, 52);
  const edge = (x: number, height: number, cut: number, turned: boolean) =>
    vec3(x, 0, height - (turned ? -1 : 1) * x * Math.tan(cut));
  const marks: Mark[] = [
    viewLine(project, corners),
    viewLine(project, [vec3(0, 0, 0), vec3(0, 0, length)], 'long-dash-dot', FINE),
    ...places.slice(0, -1).map(({ gore, turned, middle }) => {
      const height = middle + gore.centre / 2;
      return viewLine(
        project,
        [edge(r, height, gore.upper, turned), edge(-r, height, gore.upper, turned)],
        'continuous',
        MEDIUM,
      );
    }),
    ...places.flatMap(({ gore, turned, middle }) => {
      const heel = project(vec3(turned ? r : -r, 0, middle));
      return gore.heel * scale > 3.6
        ? viewText(
            { x: heel.x + (turned ? -1.4 : 1.4), y: heel.y },
            `${gore.number}`,
            turned ? 'right' : 'left',
            true,
          )
        : [];
    }),
    ...viewDimension(project(vec3(r, 0, 0)), project(vec3(r, 0, length)), 8, writeShort(length, setting)),
    ...viewText({ x: project(vec3(r, 0, 0)).x, y: project(vec3(0, 0, 0)).y - 3.5 }, '0°'),
    ...viewText({ x: project(vec3(-r, 0, 0)).x, y: project(vec3(0, 0, 0)).y - 3.5 }, '180°'),
  ];
  return makePicture(say`The pipe, seen from station 90; numbers at the heels`, marks);
};

/** What the first gore's sheet says of the nest where that is not drawn. */
export const tellNest = (request: TurnRequest, setting: Setting): string => {
  const length = writeBoth(nestGores(request).length, setting);
  const kerf = writeBoth(request.kerf, setting);
  return request.stock.kind === 'pipe'
    ? say`All gores come from one straight pipe of ${length}, kerf ${kerf}, every other one rotated 180°: the table has the middle of each saw cut, the option nest prints it full size`
    : say`All gores come from one straight length of ${length}, kerf ${kerf}, every other one rotated 180°: the table has the middle of each saw cut, the option nest prints it full size`;
};

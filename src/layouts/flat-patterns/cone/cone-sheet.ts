import type { Fact, Picture, Sheet } from '../../../drawing/model.ts';
import { scenePictures } from '../../../drawing/scene-picture.ts';
import { TURN } from '../../../geometry/angle-units.ts';
import { riseOfChord } from '../../../geometry/chord.ts';
import {
  ConeMissError,
  coneSector,
  coneSide,
  developCone,
  isSector,
  sectorPitch,
  type ConePattern,
  type ConeShape,
} from '../../../geometry/cone-pattern.ts';
import { alongFlat } from '../../../geometry/developable.ts';
import { itemAt } from '../../../lists.ts';
import type { Vec2 } from '../../../geometry/vector.ts';
import type { Side } from '../../../geometry/weld-line.ts';
import { jointError } from '../../../issue.ts';
import { solidsMate } from '../../../joint/solid-mate.ts';
import type { Scene } from '../../../scene/scene.ts';
import { angleOfEnds, crossAt, crosses, ofArc, shown, taken } from '../../../sheets/measured.ts';
import { describeSizes, type PlateValues, type SeamValues } from '../../../sheets/pattern-fields.ts';
import { patternCorners, type PatternSeams } from '../../../sheets/pattern-marks.ts';
import { rolledSheet } from '../../../sheets/rolled-sheet.ts';
import { shellScene } from '../../../sheets/shell-scene.ts';
import { rolledWeldData, type WeldData } from '../../../sheets/weld-data.ts';
import { stationNumber } from '../../../stock/station.ts';
import { angleOf, lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth, writeGiven, writeSize } from '../../../units/writing.ts';
import { say, translate } from '../../../words/say.ts';
import type { EndCut, EndCuts } from './cone-cuts.ts';

/** A cone as it was asked for; `shape` is the middle of its plate. */
export interface ConeRequest extends PlateValues, SeamValues {
  readonly large: number;
  readonly small: number;
  readonly height: number;
  readonly offset: number;
  readonly seam: number;
  readonly parts: number;
  readonly step: number;
  readonly shape: ConeShape;
  readonly cuts: EndCuts;
  readonly groove: number | undefined;
}

interface Laid {
  readonly laid: readonly ConePattern[];
  readonly stations: readonly number[];
}

const layCone = ({ shape, cuts, seam, parts, thickness }: ConeRequest): Laid => {
  const stations = Array.from({ length: parts + 1 }, (_, i) => seam + (i * TURN) / parts);
  const mate = (cut: EndCut | undefined) => (cut ? solidsMate(cut.solids) : undefined);
  const mates = { large: mate(cuts.large), small: mate(cuts.small) };
  try {
    const laid = stations
      .slice(1)
      .map((to, i) => developCone(shape, itemAt(stations, i), to, mates, thickness));
    laid.forEach((pattern, i) => checkEnds(pattern, itemAt(stations, i), itemAt(stations, i + 1)));
    return { laid, stations };
  } catch (error) {
    if (!(error instanceof ConeMissError)) throw error;
    const bodies = cuts[error.end]?.bodies.map(({ designation }) => designation).join(say` and `) ?? '';
    throw jointError(
      `${error.end}-end`,
      'cone-misses',
      say`the line of the cone at station ${stationNumber(error.station)} misses ${bodies} at the ${translate(error.end)} end`,
      say`every line along the cone must meet the body: choose a smaller end or move the body`,
    );
  }
};

/** The sheets of a cone, one a part. */
export const coneSheets = (request: ConeRequest, setting: Setting): readonly Sheet[] => {
  const { laid, stations } = layCone(request);
  const [picture] = scenePictures(sceneOf(request, laid));
  return laid.map((pattern, i) =>
    partSheet({ request, pattern, stations, index: i, picture: picture as Picture }, setting),
  );
};

const sceneOf = (request: ConeRequest, laid: readonly ConePattern[]): Scene =>
  shellScene(say`The finished cone; seams drawn`, [
    { id: 'cone', name: 'cone', parts: laid.map(({ flat }) => [flat]), thickness: request.thickness },
  ]);

/** The finished cone in space. */
export const coneScene = (request: ConeRequest): Scene => sceneOf(request, layCone(request).laid);

/** Throws where the cut of one end runs past the other's. */
const checkEnds = ({ span }: ConePattern, from: number, to: number): void => {
  const samples = Array.from({ length: 181 }, (_, i) => from + ((to - from) * i) / 180);
  const bad = samples.find((station) => {
    const [low, high] = span(station);
    return high - low < 0.1;
  });
  if (bad === undefined) return;
  throw jointError(
    'height',
    'ends-cross',
    say`nothing is left of the cone at station ${stationNumber(bad)}: the cuts of its ends cross there`,
    say`give more height, or cut an end at less of an angle`,
  );
};

/** Weld data of the ends that are cut to a body, for stations of one part. */
const weldsOf = (
  { shape, cuts, thickness, step, groove }: ConeRequest,
  from: number,
  to: number,
): readonly WeldData[] =>
  (['large', 'small'] as const).flatMap((end) => {
    const cut = cuts[end];
    const mate = cut && solidsMate(cut.solids);
    if (!mate) return [];
    const first = Math.ceil(from / step - 1e-9);
    const count = Math.ceil(to / step - 1e-9) - first;
    const stations = Array.from({ length: count }, (_, i) => ((first + i) * step + 2 * TURN) % TURN);
    const sideAt = (share: number): Side => coneSide(shape, end, thickness, share * TURN);
    return [rolledWeldData({ end, sideAt, mate, stations, groove })];
  });

interface Part {
  readonly request: ConeRequest;
  readonly pattern: ConePattern;
  readonly stations: readonly number[];
  readonly index: number;
  readonly picture: Picture;
}

const partSheet = (part: Part, setting: Setting): Sheet => {
  const { request, pattern, stations, index, picture } = part;
  const { parts, shape, height, step, cuts } = request;
  const cut = cuts.large !== undefined || cuts.small !== undefined;
  const welds = weldsOf(request, itemAt(stations, index), itemAt(stations, index + 1));
  const corners = patternCorners({ ends: pattern.ends, apex: alongFlat(pattern.flat.flat(0.5)) });
  return rolledSheet(
    {
      name: parts === 1 ? 'cone' : `cone ${index + 1}`,
      heading: parts === 1 ? say`Cone` : say`Cone, part ${index + 1} of ${parts}`,
      subject: describeCone(request, setting),
      laid: pattern,
      from: itemAt(stations, index),
      to: itemAt(stations, index + 1),
      step,
      ...(isSector(shape) ? { bend: step * Math.cos(coneSector(shape).lean) } : {}),
      plate: request,
      last: [
        cut
          ? say`Try the cut ends in place before you weld. Then check both ends with a tape in four directions.`
          : say`Check both ends with a tape in four directions, and ${writeBoth(height, setting)} square between them.`,
      ],
      facts: [...sectorFacts(request, corners), ...welds.flatMap(({ facts }) => facts)],
      tables: welds.flatMap(({ tables }) => tables),
      nested: (across) => nestedFacts(request, across),
      picture,
      cautions: [
        ...new Set([
          ...[cuts.large, cuts.small].flatMap((end) => end?.bodies.flatMap(({ cautions }) => cautions) ?? []),
          ...welds.flatMap(({ cautions }) => cautions),
        ]),
      ],
    },
    setting,
  );
};

const describeCone = (request: ConeRequest, setting: Setting): readonly string[] => {
  const { large, small, height, offset, thickness, cuts } = request;
  const given = (length: number): string => writeGiven(length, setting);
  const listBodies = ({ bodies }: EndCut): string =>
    bodies.map((body) => `${body.designation} (${body.placing(setting)})`).join(say` and `);
  return [
    say`Large end ⌀ ${given(large)}, ${small === 0 ? say`to a point` : say`small end ⌀ ${given(small)}`}, ${given(height)} high`,
    ...(offset === 0
      ? []
      : [say`Small end ${given(Math.abs(offset))} off center toward station ${offset > 0 ? 0 : 180}`]),
    ...(cuts.large ? [say`Large end cut to ${listBodies(cuts.large)}`] : []),
    ...(cuts.small ? [say`Small end cut to ${listBodies(cuts.small)}`] : []),
    thickness === 0
      ? say`Thin sheet: no allowance for thickness`
      : say`Plate ${writeSize(thickness, setting)}, ${describeSizes(request)}; laid out on the middle of the plate`,
  ];
};

/** What the figures of one of a sector's two arcs are called. */
interface ArcNames {
  readonly radius: string;
  readonly chord: string;
  /** The chord of half a turn, where the arc goes further around. */
  readonly half: string;
  readonly rise: string;
}

const OUTER_ARC = (): ArcNames => ({
  radius: say`Outer radius`,
  chord: say`Outer arc, chord`,
  half: say`Outer arc, chord of half a turn`,
  rise: say`Outer arc, rise over that chord`,
});

const INNER_ARC = (): ArcNames => ({
  radius: say`Inner radius`,
  chord: say`Inner arc, chord`,
  half: say`Inner arc, chord of half a turn`,
  rise: say`Inner arc, rise over that chord`,
});

/** What a right cone's sector is swung by. */
const sectorFacts = ({ shape, parts, cuts }: ConeRequest, { left, right }: PatternSeams): readonly Fact[] => {
  if (!isSector(shape)) return [];
  const { outer, inner, slant, angle } = coneSector(shape);
  const part = angle / parts;
  const between = angleOfEnds(left, right, ({ x, y }) => crossAt('punch', x, y));
  const isWhole = cuts.large === undefined && cuts.small === undefined;
  const swing = (
    { radius: radiusName, chord: chordName, half, rise }: ArcNames,
    radius: number,
    [from, to]: readonly [Vec2, Vec2],
    isDrawn: boolean,
  ): readonly Fact[] => {
    // Well inside the seams, which may be cut back.
    const arc = { centre: { x: 0, y: outer }, radius, from: -Math.PI / 2 - 0.4 * part, sweep: 0.8 * part };
    const chord = 2 * radius * Math.sin(Math.min(part, Math.PI) / 2);
    const isShort = part <= Math.PI;
    return [
      [radiusName, shown(lengthOf(radius), isDrawn ? ofArc('radius', arc) : undefined)],
      [
        isShort ? chordName : half,
        shown(lengthOf(chord), isShort && isDrawn ? crosses(from, to) : undefined),
      ],
      [rise, lengthOf(riseOfChord(radius, chord))],
    ];
  };
  return [
    [say`Sector`, shown(angleOf(part), part <= Math.PI ? between : taken(between, -1, 2 * Math.PI))],
    [say`Slant`, shown(lengthOf(slant), isWhole ? crosses(...left) : undefined)],
    ...swing(OUTER_ARC(), outer, [left[0], right[0]], cuts.large === undefined),
    ...(inner > 0 ? swing(INNER_ARC(), inner, [left[1], right[1]], cuts.small === undefined) : []),
  ];
};

/** Plate for all parts nested along a strip. */
const nestedFacts = ({ shape, parts, seamAllowance }: ConeRequest, across: number): readonly Fact[] => {
  if (!isSector(shape) || parts === 1) return [];
  const { outer, inner, angle } = coneSector(shape);
  const pitch = sectorPitch(outer, inner, angle / parts);
  return pitch === undefined
    ? []
    : [
        [
          say`All ${parts} nested one behind the other, across`,
          lengthOf(across + (parts - 1) * (pitch + seamAllowance)),
        ],
      ];
};

import { textWidth } from '../../drawing/lettering.ts';
import type { Fact, Mark, Picture, Sheet } from '../../drawing/model.ts';
import { scenePictures } from '../../drawing/scene-picture.ts';
import { letter, NARROW, polylinePath, ruleLine } from '../../drawing/paths.ts';
import { lengthField, parsedField } from '../../fields/fields.ts';
import { defineLayout } from '../../fields/layout.ts';
import { type FlatStretch, layDevelopable } from '../../geometry/developable.ts';
import { type Hopper, type HopperPlate, hopperPlates, lapReach } from '../../geometry/hopper.ts';
import { developableHull } from '../../geometry/hull.ts';
import { itemAround, itemAt } from '../../lists.ts';
import { rectangleProfile } from '../../geometry/profile.ts';
import { SAME_LENGTH } from '../../geometry/tolerance.ts';
import { add2, distance2, scale2, sub2, unit2, vec2, type Vec2, vec3 } from '../../geometry/vector.ts';
import { jointError, requestError } from '../../issue.ts';
import { CHECK_PRINT } from '../../sheets/band-words.ts';
import { fitFlat, sideFigures } from '../../sheets/fit-record.ts';
import { drawOutline, drawPunch } from '../../sheets/flat-marks.ts';
import { plateSheet } from '../../sheets/flat-sheet.ts';
import { apart, crossAt, crosses, ends, shown } from '../../sheets/measured.ts';
import { blankFacts, plateFacts, plateFields } from '../../sheets/pattern-fields.ts';
import { PLATE_CAUTION } from '../../sheets/seam-step.ts';
import { shellScene } from '../../sheets/shell-scene.ts';
import { formatAngle } from '../../units/angle.ts';
import { parseLength } from '../../units/length.ts';
import { angleOf, lengthOf } from '../../units/quantity.ts';
import type { Setting } from '../../units/setting.ts';
import { writeBoth, writeSize } from '../../units/writing.ts';
import { say, translate } from '../../words/say.ts';

const rectangleField = (help: string, example: string) =>
  parsedField<Vec2>(`${help}, inside, as width x depth; the width runs along the front`, {
    kind: 'designation',
    symbol: 'WxD',
    example,
    parse: (text, reading) => {
      const parts = text.trim().split(/\s*[x×]\s*/i);
      const unit = /(?:[a-z]+\.?|["'″′])$/i.exec(parts[parts.length - 1] ?? '')?.[0] ?? '';
      const sizes = parts.map((part) =>
        parseLength(/[a-z"'″′]/i.test(part) ? part : `${part}${unit}`, reading),
      );
      const [x, y] = sizes;
      if (sizes.length !== 2 || x === undefined || y === undefined || x <= 0 || y <= 0)
        throw requestError(
          reading.path,
          'not-understood',
          say`"${text}" is not a width and a depth`,
          say`write it like ${example}`,
        );
      return vec2(x, y);
    },
  });

const { thickness, density } = plateFields;

/** A hopper, hood or chute of four flat plates, one sheet a plate. */
export const hopper = defineLayout({
  id: 'hopper',
  summary: 'hopper or hood of four flat plates between two rectangles, one sheet a plate',
  family: 'flat patterns',
  words: ['hood', 'chute', 'bin', 'pyramid', 'trough', 'flat pattern'],
  fields: {
    top: rectangleField('the upper opening', '1200x900mm'),
    bottom: rectangleField('the lower opening', '300x200mm'),
    height: lengthField('from opening to opening', { example: '800mm', above: 0, max: 20_000 }),
    offset: lengthField(
      'how far the lower opening’s center lies toward the right plate and toward the back plate, as X,Y',
      { default: '0mm', example: '100mm,0mm', min: -20_000, max: 20_000, list: true },
    ),
    flange: lengthField('width of a level flange turned out around the upper opening', {
      default: '0mm',
      example: '50mm',
      max: 500,
    }),
    thickness,
    density,
  },
  examples: [
    'hopper --top 1200x900mm --bottom 300x200mm --height 800mm',
    'hopper --top 300x300mm --bottom 120x120mm --height 200mm --thickness 3mm --flange 30mm',
    'hopper --top 24x18in --bottom 6x6in --height 20in --offset 4in,0in --thickness 3/16in',
  ],
  sheets: ['hopper front', 'hopper right', 'hopper back', 'hopper left'],
  scene: (asked) => sceneOf({ ...asked, offset: readOffset(asked.offset) }, asked.thickness),
  draw: (asked, setting) => {
    const shape: Hopper = { ...asked, offset: readOffset(asked.offset) };
    const plates = hopperPlates(shape);
    checkPlates(shape, plates, asked.thickness);
    const picture = itemAt(scenePictures(sceneOf(shape, asked.thickness)), 0);
    return plates.map((plate, i) =>
      plateSheetOf({ asked, shape, plates, index: i, picture }, plate, setting),
    );
  },
});

const readOffset = (given: readonly number[]): Vec2 => {
  const [x = 0, y = 0, ...more] = given;
  if (more.length === 0) return vec2(x, y);
  throw requestError(
    'offset',
    'many-offsets',
    say`${given.length} offsets are given`,
    say`give two: X,Y such as 100mm,0mm`,
  );
};

/** Throws where plates lean so far that they lie almost flat on each other, or flare so that a flange cannot be turned. */
const checkPlates = (shape: Hopper, plates: readonly HopperPlate[], thickness: number): void => {
  const least = Math.min(shape.bottom.x, shape.bottom.y, shape.top.x, shape.top.y);
  if (thickness * 2 >= least)
    throw jointError(
      'thickness',
      'too-thick',
      say`the plate is more than half as thick as an opening is wide`,
      say`give a thinner plate or larger openings`,
    );
  const sharp = plates.find(({ dihedral }) => dihedral < 0.09 || dihedral > Math.PI - 0.02);
  if (sharp)
    throw jointError(
      'height',
      'plates-in-line',
      say`the ${translate(sharp.side)} plate and the next one meet under ${formatAngle(sharp.dihedral, 2)}: they lie almost in one plane`,
      say`give more height or less offset`,
    );
};

/** The inside faces as one surface, for the picture. */
const hopperSurface = ({ top, bottom, height, offset }: Hopper): readonly FlatStretch[] => {
  const [x, y] = [vec3(1, 0, 0), vec3(0, 1, 0)];
  return layDevelopable(
    developableHull(
      { profile: rectangleProfile(bottom.x, bottom.y), plane: { origin: vec3(offset.x, offset.y, 0), x, y } },
      { profile: rectangleProfile(top.x, top.y), plane: { origin: vec3(0, 0, height), x, y } },
    ),
  );
};

/** The finished hopper in space, the front toward the eye. */
const sceneOf = (shape: Hopper, thickness: number) =>
  shellScene(say`The finished hopper, front toward you`, [
    { id: 'hopper', name: say`hopper`, parts: [hopperSurface(shape)], thickness },
  ]);

interface Request {
  readonly asked: {
    readonly height: number;
    readonly flange: number;
    readonly thickness: number;
    readonly density: number;
  };
  readonly shape: Hopper;
  readonly plates: readonly HopperPlate[];
  readonly index: number;
  readonly picture: Picture;
}

/** The front and the back lap over the edges of the plates beside them. */
const isLapping = ({ side }: HopperPlate): boolean => side === 'front' || side === 'back';

/** The corners of a plate to cut, from the bottom left round to the top left, and the fold of its flange. */
const plateOutline = ({ asked, plates, index }: Request, plate: HopperPlate) => {
  const [bl, br, tr, tl] = plate.corners;
  const before = itemAt(plates, (index + 3) % 4);
  const reach = (dihedral: number): number => (isLapping(plate) ? lapReach(asked.thickness, dihedral) : 0);
  /** Moves a hip outward in the plate's plane, keeping its ends on the plate's top and bottom lines. */
  const widen = (low: Vec2, high: Vec2, by: number, side: 1 | -1): readonly [Vec2, Vec2] => {
    const run = unit2(sub2(high, low));
    const along = by / run.y;
    return [add2(low, vec2(side * along, 0)), add2(high, vec2(side * along, 0))];
  };
  const [right, left] = [widen(br, tr, reach(plate.dihedral), 1), widen(bl, tl, reach(before.dihedral), -1)];
  const outline = [left[0], right[0], right[1], left[1]];
  if (asked.flange === 0) return { outline, fold: undefined };
  // Level flanges meet at the corners in miters of 45° seen from above.
  const up = vec2(0, asked.flange);
  const flange = [
    add2(add2(right[1], up), vec2(asked.flange, 0)),
    add2(add2(left[1], up), vec2(-asked.flange, 0)),
  ];
  return {
    outline: [left[0], right[0], right[1], ...flange, left[1]],
    fold: [left[1], right[1]] as const,
  };
};

/** Where a plate goes: every side that takes the same one, which is drawn once. */
const sidesOf = (request: Request, plate: HopperPlate): string => {
  const shapeOf = (one: HopperPlate, index: number): readonly Vec2[] => [
    ...one.corners,
    ...plateOutline({ ...request, index }, one).outline,
  ];
  const shape = shapeOf(plate, request.index);
  return request.plates
    .filter((one, index) =>
      shapeOf(one, index).every((corner, i) => distance2(corner, itemAt(shape, i)) < SAME_LENGTH),
    )
    .map(({ side }) => translate(side))
    .join(', ');
};

const polygonArea = (points: readonly Vec2[]): number =>
  Math.abs(
    points.reduce((sum, p, i) => {
      const q = itemAround(points, i + 1);
      return sum + (p.x * q.y - p.y * q.x) / 2;
    }, 0),
  );

/** A plate's name, and how it lies: by its wider edge, since a page in the middle of a large plate has no line and is left out. */
const nameMarks = (name: string, [bl, br, tr, tl]: HopperPlate['corners']): Mark[] => {
  const isTop = distance2(tl, tr) >= distance2(bl, br);
  const [left, right] = isTop ? [tl, tr] : [bl, br];
  const into = Math.min(18, (tl.y - bl.y) / 2);
  const at = add2(scale2(add2(left, right), 0.5), vec2(0, isTop ? -into : into));
  const size = [7, 5, 3.5].find((one) => textWidth(name, one, true) < 0.7 * distance2(left, right)) ?? 2.5;
  return [
    letter('text', at, name, size, { align: 'centre', bold: true }),
    letter('text', add2(at, vec2(0, -7)), say`outside, top up`, Math.min(size, 3.5), { align: 'centre' }),
  ];
};

const plateSheetOf = (request: Request, plate: HopperPlate, setting: Setting): Sheet => {
  const { asked, shape, plates, index, picture } = request;
  const both = (length: number): string => writeBoth(length, setting);
  const { outline, fold } = plateOutline(request, plate);
  const before = itemAt(plates, (index + 3) % 4);
  const [bl, br, tr, tl] = plate.corners;
  const marks: Mark[] = [
    drawOutline(polylinePath(outline, true)),
    ...(isLapping(plate) && asked.thickness > 0
      ? [ruleLine('reference', bl, tl, NARROW), ruleLine('reference', br, tr, NARROW)]
      : []),
    ...(fold ? [ruleLine('bend', fold[0], fold[1], NARROW, 'long-dash-double-dot')] : []),
    ...nameMarks(sidesOf(request, plate).toUpperCase(), plate.corners),
    ...plate.corners.flatMap((corner) => drawPunch(corner)),
  ];
  const xs = outline.map(({ x }) => x);
  const ys = outline.map(({ y }) => y);
  return plateSheet({
    name: `hopper ${plate.side}`,
    heading: say`Hopper, ${translate(plate.side)} plate`,
    subject: [
      say`Top ${both(shape.top.x)} by ${both(shape.top.y)}, bottom ${both(shape.bottom.x)} by ${both(shape.bottom.y)}, ${both(asked.height)} high, inside sizes`,
      describeCorner(request, plate, setting),
    ],
    marks,
    fit: fitFlat({
      points: plate.corners,
      lines: [
        ...sideFigures(outline).lines,
        ...(fold ? [{ from: fold[0], to: fold[1], role: 'bend' as const }] : []),
      ],
    }),
    steps: [
      CHECK_PRINT(),
      say`Check the pattern: diagonals ${both(distance2(bl, tr))} and ${both(distance2(br, tl))} between the punch marks.`,
      say`Lay the sheet on the plate, this side up: it shows the outside. Prick the corners through. Cut on the outline.`,
      ...(fold
        ? [
            say`Turn the flange out level on its bend line: bend it through ${formatAngle(plate.slope, 2)}, toward this side.`,
          ]
        : []),
      lapStep(plate, asked.thickness),
      say`Tack all four at the bottom first. Tape both diagonals of each opening: they must be equal. Then weld.`,
    ],
    facts: [
      ...edgeFacts(request, plate),
      [say`Plate to level`, angleOf(Math.min(plate.slope, Math.PI - plate.slope))],
      [say`Left corner, between inside faces`, angleOf(before.dihedral)],
      [say`Right corner, between inside faces`, angleOf(plate.dihedral)],
      ...blankFacts(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)),
      ...plateFacts(polygonArea(outline), { ...asked, sizes: 'inside' }),
    ],
    tables: [cornerTable(plates)],
    pictures: [picture],
    cautions: [
      PLATE_CAUTION(),
      say`Whether material slides depends on the slope of the corners, not of the plates: see the table.`,
    ],
  });
};

/** Lengths of the edges, and between the corners. */
const edgeFacts = (request: Request, plate: HopperPlate): readonly Fact[] => {
  const { plates, index } = request;
  const { outline, fold } = plateOutline(request, plate);
  const before = itemAt(plates, (index + 3) % 4);
  const [bl, br, tr, tl] = plate.corners;
  return [
    [
      say`Bottom edge`,
      shown(
        lengthOf(distance2(itemAt(outline, 0), itemAt(outline, 1))),
        ends(itemAt(outline, 0), itemAt(outline, 1)),
      ),
    ],
    [
      say`Top edge`,
      fold
        ? shown(lengthOf(distance2(...fold)), ends(...fold, 'bend'))
        : shown(
            lengthOf(distance2(itemAt(outline, 2), itemAt(outline, 3))),
            ends(itemAt(outline, 2), itemAt(outline, 3)),
          ),
    ],
    ...cornerFacts([bl, br, tr, tl], before.hip, plate.hip),
  ];
};

/** Lengths between the corners, which are punched. */
const cornerFacts = (
  [bl, br, tr, tl]: readonly [Vec2, Vec2, Vec2, Vec2],
  left: number,
  right: number,
): readonly Fact[] => [
  [
    say`Square height of the plate`,
    shown(lengthOf(tl.y), apart(crossAt('punch', bl.x, bl.y), crossAt('punch', tl.x, tl.y), 'y')),
  ],
  [say`Left corner, bottom to top`, shown(lengthOf(left), crosses(bl, tl))],
  [say`Right corner, bottom to top`, shown(lengthOf(right), crosses(br, tr))],
  [say`Bottom left to top right`, shown(lengthOf(distance2(bl, tr)), crosses(bl, tr))],
  [say`Bottom right to top left`, shown(lengthOf(distance2(br, tl)), crosses(br, tl))],
];

const describeCorner = ({ asked }: Request, plate: HopperPlate, setting: Setting): string =>
  asked.thickness === 0
    ? say`No thickness given: edges lie on the inside corners`
    : say`Plate ${writeSize(asked.thickness, setting)}; ${
        isLapping(plate)
          ? say`laps over the edges of the plates beside it`
          : say`stands between the front and the back`
      }`;

const lapStep = (plate: HopperPlate, thickness: number): string =>
  thickness === 0
    ? say`Set the plates edge to edge at the inside corners.`
    : isLapping(plate)
      ? say`This plate laps: set the edges of the plates beside it on the inner lines, inside corner to inside corner.`
      : say`Set this plate’s edges on the inner lines of the front and the back. Cut square, they leave an open corner outside for the weld.`;

/** Every corner: what a corner angle is opened to, the bevel that would close it, how steep it runs. */
const cornerTable = (plates: readonly HopperPlate[]) => ({
  title: say`Corners: corner angle to open to, bevel off square for a tight fit, slope of the corner`,
  header: [say`Corner`, say`angle`, say`bevel`, say`slope`, say`length`],
  rows: plates.map((plate, i) => {
    const next = itemAt(plates, (i + 1) % 4);
    const rise = plate.corners[2].y * Math.sin(plate.slope);
    return [
      say`${translate(plate.side)} to ${translate(next.side)}`,
      angleOf(plate.dihedral),
      angleOf(Math.abs(plate.dihedral - Math.PI / 2)),
      angleOf(Math.asin(Math.min(1, rise / plate.hip))),
      lengthOf(plate.hip),
    ];
  }),
});

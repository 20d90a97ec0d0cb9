import type { Fact, Figure, Picture, Sheet } from '../../drawing/model.ts';
import { scenePictures } from '../../drawing/scene-picture.ts';
import type { Values } from '../../fields/field.ts';
import { angleField, choiceField, countField, lengthField, parsedField } from '../../fields/fields.ts';
import { defineLayout } from '../../fields/layout.ts';
import { DEGREE } from '../../geometry/angle-units.ts';
import { type FlatStretch, layUpright } from '../../geometry/developable.ts';
import { developableHull, HullError, type PlacedProfile } from '../../geometry/hull.ts';
import { itemAt, lastOf } from '../../lists.ts';
import { brakeBends, cutRun, traceEnds } from '../../geometry/pattern.ts';
import { profileGirth } from '../../geometry/profile.ts';
import { add3, distance2, scale3, type Vec2, vec3, type Vec3 } from '../../geometry/vector.ts';
import { jointError, requestError } from '../../issue.ts';
import { CHECK_PRINT } from '../../sheets/band-words.ts';
import { fitFlat } from '../../sheets/fit-record.ts';
import { plateSheet } from '../../sheets/flat-sheet.ts';
import { crosses, shown } from '../../sheets/measured.ts';
import {
  blankFacts,
  describeSizes,
  plateFacts,
  plateFields,
  seamFields,
  toInside,
  toMean,
} from '../../sheets/pattern-fields.ts';
import {
  outlineBox,
  type Pattern,
  patternArea,
  patternCorners,
  patternFigures,
  patternMarks,
  punchCorners,
  tapeTable,
} from '../../sheets/pattern-marks.ts';
import { PLATE_CAUTION, seamStep } from '../../sheets/seam-step.ts';
import { shellScene } from '../../sheets/shell-scene.ts';
import { type EndProfile, readEndProfile } from '../../stock/end-profile.ts';
import { formatAngle } from '../../units/angle.ts';
import { lengthOf } from '../../units/quantity.ts';
import type { Setting } from '../../units/setting.ts';
import { writeBoth, writeSize } from '../../units/writing.ts';
import { say } from '../../words/say.ts';

const profileField = (help: string, example: string) =>
  parsedField<EndProfile>(
    `${help}: round D, rect WxH, rounded WxH corner R, oval WxH, ellipse WxH, or polygon N side L; width toward station 0`,
    { kind: 'designation', symbol: 'PROFILE', example, parse: readEndProfile },
  );

const fields = {
  from: profileField('the lower end', 'rect 300x200mm'),
  to: profileField('the upper end', 'round 200mm'),
  height: lengthField('from the center of the lower end square up to the center of the upper end', {
    example: '250mm',
    max: 20_000,
  }),
  offset: lengthField('how far the upper center lies toward station 0 and toward station 90, as X,Y', {
    default: '0mm',
    example: '50mm,20mm',
    min: -20_000,
    max: 20_000,
    list: true,
  }),
  tilt: angleField('how far the upper end is tipped down toward station 0', {
    default: '0',
    example: '15',
    min: -170 * DEGREE,
    max: 170 * DEGREE,
  }),
  turn: angleField('how far the upper end is turned in its own plane, from station 0 toward 90', {
    default: '0',
    example: '45',
  }),
  seam: angleField('station of the lower end, seen from its center, at which the pattern is cut open', {
    default: '0',
    example: '180',
  }),
  parts: choiceField('number of pieces, cut at equal stations from the seam on', ['1', '2', '4'], {
    default: '1',
  }),
  bends: countField(
    'bends across each round corner, for a press brake; a quarter turn of a round end counts as a corner',
    { default: '6', example: '8', min: 1, max: 60 },
  ),
  ...plateFields,
  ...seamFields,
} as const;

type Asked = Values<typeof fields>;

/** A transition between any two convex outlines: the sheet pulled tight round both, cut open and laid flat. */
export const transition = defineLayout({
  id: 'transition',
  summary:
    'transition between two outlines (square to round, round to round, oval, polygon), in any position',
  family: 'flat patterns',
  words: [
    'square to round',
    'round to square',
    'oval to round',
    'offset',
    'duct',
    'triangulation',
    'flat pattern',
  ],
  fields,
  examples: [
    'transition --from "rect 300x300mm" --to "round 200mm" --height 250mm',
    'transition --from "rect 24x16in" --to "round 14in" --height 18in --offset 3in,2in --parts 2 --seam-allowance 1/2in',
    'transition --from "round 300mm" --to "round 200mm" --height 400mm --tilt 30 --seam 180',
    'transition --from "rounded 300x200mm corner 40mm" --to "oval 240x120mm" --height 200mm --turn 90 --thickness 2mm --sizes inside',
  ],
  sheets: ['transition N'],
  draw: (asked, setting) => {
    const { from, to } = asked;
    const { offset, parts, place, stations, laid } = layTransition(asked, setting);
    const subject = [
      say`${from.designation} to ${to.designation}, ${writeBoth(asked.height, setting)} high`,
      describePlace(asked, offset, setting),
      describeTaken(asked, setting),
    ].filter((line) => line !== '');
    const picture = itemAt(scenePictures(sceneOf(asked, laid)), 0);
    return laid.map((flats, i) =>
      drawPart({ asked, place, flats, number: i + 1, parts, stations, subject, picture }, setting),
    );
  },
  scene: (asked, setting) => sceneOf(asked, layTransition(asked, setting).laid),
});

/** The finished transition in space. */
const sceneOf = ({ thickness }: Asked, parts: readonly (readonly FlatStretch[])[]) =>
  shellScene(say`The finished transition; seams drawn`, [
    { id: 'transition', name: say`transition`, parts, thickness },
  ]);

/** Both ends in place, and the sheet between them cut at its seams and laid flat. */
const layTransition = (
  asked: Asked & { readonly offset: readonly number[]; readonly parts: string },
  setting: Setting,
) => {
  const offset = readOffset(asked.offset);
  const parts = Number(asked.parts);
  const place = placeEnds(asked, offset);
  const stretches = joinEnds(place, setting);
  const stations = Array.from({ length: parts }, (_, i) => asked.seam + (i * 2 * Math.PI) / parts);
  const runs = cutRun(stretches, stations, ({ x, y }) => Math.atan2(y, x));
  return { offset, parts, place, stations, laid: runs.map(layUpright) };
};

const readOffset = (given: readonly number[]): readonly [number, number] => {
  const [x = 0, y = 0, ...more] = given;
  if (more.length === 0) return [x, y];
  throw requestError(
    'offset',
    'many-offsets',
    say`${given.length} offsets are given`,
    say`give two: X,Y such as 50mm,20mm`,
  );
};

/** Both ends on the surface the pattern is developed on: folded corners on inside sizes, rolled ends on the middle of the plate. */
const placeEnds = (
  asked: Asked,
  [x, y]: readonly [number, number],
): readonly [PlacedProfile, PlacedProfile] => {
  const { from, to, height, tilt, turn } = asked;
  const outline = (end: EndProfile, path: string) => {
    const out = end.sharp ? toInside(asked) : toMean(asked);
    if (end.least + out <= 0)
      throw jointError(
        path,
        'too-thick',
        say`${end.designation} is no wider than the plate is thick`,
        say`give a thinner plate or a larger end`,
      );
    return end.outline(out);
  };
  const [down, across] = [vec3(Math.cos(tilt), 0, -Math.sin(tilt)), vec3(0, 1, 0)];
  const mix = (c: number, s: number): Vec3 => add3(scale3(down, c), scale3(across, s));
  return [
    { profile: outline(from, 'from'), plane: { origin: vec3(0, 0, 0), x: vec3(1, 0, 0), y: vec3(0, 1, 0) } },
    {
      profile: outline(to, 'to'),
      plane: {
        origin: vec3(x, y, height),
        x: mix(Math.cos(turn), Math.sin(turn)),
        y: mix(-Math.sin(turn), Math.cos(turn)),
      },
    },
  ];
};

const joinEnds = ([lower, upper]: readonly [PlacedProfile, PlacedProfile], setting: Setting) => {
  try {
    return developableHull(lower, upper);
  } catch (error) {
    if (!(error instanceof HullError)) throw error;
    if (error.why === 'flat')
      throw jointError(
        'height',
        'one-plane',
        say`both ends lie in one plane`,
        say`give a height, such as ${writeBoth(250, setting)}`,
      );
    const end = error.which === 'lower' ? say`lower` : say`upper`;
    throw jointError(
      'tilt',
      'ends-cross',
      say`the plane of one end cuts through the ${end} end, so no sheet goes round both`,
      say`give more height, less tilt, or an offset that brings the ends clear of each other`,
    );
  }
};

const describePlace = ({ tilt, turn }: Asked, [x, y]: readonly [number, number], setting: Setting): string =>
  [
    x === 0 && y === 0
      ? say`Upper end centered over the lower`
      : say`Upper center ${writeBoth(x, setting)} toward station 0, ${writeBoth(y, setting)} toward station 90`,
    tilt === 0 ? say`level` : say`tipped down ${formatAngle(tilt)} toward station 0`,
    ...(turn === 0 ? [] : [say`turned ${formatAngle(turn)} toward station 90`]),
  ].join(', ');

const describeTaken = (asked: Asked, setting: Setting): string => {
  if (asked.thickness === 0) return say`Thin sheet: no allowance for thickness`;
  const end = (profile: EndProfile): string => (profile.sharp ? say`inside size` : say`middle of the plate`);
  const taken =
    asked.from.sharp === asked.to.sharp
      ? say`both ends on their ${end(asked.from)}`
      : say`lower end on its ${end(asked.from)}, upper on its ${end(asked.to)}`;
  return say`Plate ${writeSize(asked.thickness, setting)}, ${describeSizes(asked)}; laid out with ${taken}`;
};

interface Part {
  readonly asked: Asked;
  readonly place: readonly [PlacedProfile, PlacedProfile];
  readonly flats: readonly FlatStretch[];
  readonly number: number;
  readonly parts: number;
  readonly stations: readonly number[];
  readonly subject: readonly string[];
  readonly picture: Picture;
}

const patternOf = ({ asked, flats, number, parts, stations }: Part): Pattern => {
  const ends = traceEnds(flats);
  const last = lastOf(flats);
  const bends = brakeBends(flats, asked.bends);
  const name = (index: number): string => say`SEAM ${formatAngle(stations[index % parts] ?? 0)}`;
  return {
    ends,
    apex: last.flat(1).foot,
    seam: asked,
    seams: [name(number - 1), name(number)],
    lines: bends.map(({ foot, head, angle }, i) => ({
      foot,
      head,
      kind: 'bend',
      name: `${i + 1}`,
      label: `${i + 1}: ${formatAngle(angle, 2)}`,
    })),
  };
};

const drawPart = (part: Part, setting: Setting): Sheet => {
  const { asked, place, number, parts, subject, picture } = part;
  const pattern = patternOf(part);
  const punched = punchCorners(pattern);
  const box = outlineBox(pattern);
  const { left, right } = patternCorners(pattern);
  const both = (length: number): string => writeBoth(length, setting);
  const crossed = (a: Vec2, b: Vec2): Figure => shown(lengthOf(distance2(a, b)), crosses(a, b));
  const bendLines = pattern.lines.length;
  return plateSheet({
    name: `transition ${number}`,
    heading: parts === 1 ? say`Transition` : say`Transition, part ${number} of ${parts}`,
    subject,
    marks: [...patternMarks(pattern), ...punched.marks],
    fit: fitFlat(patternFigures(pattern)),
    steps: [
      CHECK_PRINT(),
      say`Check the pattern: left seam ${both(distance2(...left))}, right seam ${both(distance2(...right))}, lower left to upper right ${both(distance2(left[0], right[1]))}.`,
      say`Lay the sheet on the plate, this side up: it shows the outside. Prick the corners and the ends of every bend line through.`,
      bendLines === 0
        ? say`Cut on the outline.`
        : bendLines === 1
          ? say`Cut on the outline. Carry the bend line across.`
          : say`Cut on the outline. Carry the bend lines across.`,
      bendLines === 1
        ? say`Bend from the middle line outward, all one way, away from this side. Try each end on its outline as you go.`
        : say`Bend from the middle lines outward, all one way, away from this side. Try each end on its outline as you go.`,
      seamStep(asked, setting),
      say`Check both ends: square the corners, tape the round end in four directions, and ${both(asked.height)} from end to end.`,
    ],
    facts: [
      [say`Left seam`, crossed(...left)],
      [say`Right seam`, crossed(...right)],
      [say`Lower left to upper right`, crossed(left[0], right[1])],
      [say`Lower right to upper left`, crossed(right[0], left[1])],
      [say`Lower corner to corner`, crossed(left[0], right[0])],
      [say`Upper corner to corner`, crossed(left[1], right[1])],
      [say`Whole lower end, once around`, lengthOf(profileGirth(place[0].profile))],
      [say`Whole upper end, once around`, lengthOf(profileGirth(place[1].profile))],
      ...blankFacts(box.maxX - box.minX, box.maxY - box.minY),
      ...plateFacts(patternArea(pattern), asked),
    ] satisfies readonly Fact[],
    tables: [tapeTable(pattern)],
    pictures: [picture],
    cautions: [PLATE_CAUTION()],
  });
};

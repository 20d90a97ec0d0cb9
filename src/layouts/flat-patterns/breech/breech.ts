import type { Sheet } from '../../../drawing/model.ts';
import { angleField, lengthField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { DEGREE, TURN } from '../../../geometry/angle-units.ts';
import {
  type BreechLeg,
  type EndPlane,
  levelLegs,
  planesMate,
  sphereLegs,
} from '../../../geometry/breech.ts';
import { ConeMissError, type ConePattern, developCone } from '../../../geometry/cone-pattern.ts';
import { itemAt } from '../../../lists.ts';
import { dot3, vec3, type Vec3 } from '../../../geometry/vector.ts';
import { jointError, requestError } from '../../../issue.ts';
import {
  checkBends,
  describeSizes,
  plateFields,
  type PlateValues,
  seamFields,
  type SeamValues,
  toMean,
} from '../../../sheets/pattern-fields.ts';
import { rolledSheet } from '../../../sheets/rolled-sheet.ts';
import { type Shell, shellPicture, shellScene } from '../../../sheets/shell-scene.ts';
import { formatAngle } from '../../../units/angle.ts';
import { told } from '../../../units/format.ts';
import { angleOf, lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeGiven, writeSize } from '../../../units/writing.ts';
import { say, translateOf } from '../../../words/say.ts';

/** A Y from one round pipe to two: leaning cones with level ends, or right cones round one sphere; joints are plane. */
export const breech = defineLayout({
  id: 'breech',
  summary: 'breech (Y) from one round pipe to two, of leaning cones with level outlets or of right cones',
  family: 'flat patterns',
  words: ['breeches', 'y branch', 'pants', 'bifurcation', 'fork', 'flat pattern'],
  fields: {
    trunk: lengthField('diameter of the trunk', { example: '300mm', above: 0, max: 20_000 }),
    legs: lengthField('diameter of the outlets: one for both, or one for each', {
      example: '200mm',
      above: 0,
      max: 20_000,
      list: 'both',
    }),
    height: lengthField('level outlets: from the trunk’s end up to them; with --spread', {
      example: '300mm',
      above: 0,
      max: 20_000,
      optional: true,
    }),
    spread: lengthField('level outlets: between their centers', {
      example: '320mm',
      above: 0,
      max: 20_000,
      optional: true,
    }),
    angle: angleField('right cones: between each leg’s axis and the trunk’s axis carried on; with --length', {
      example: '45',
      above: 5 * DEGREE,
      max: 85 * DEGREE,
      optional: true,
    }),
    length: lengthField('right cones: along a leg’s axis from the crossing of the axes to its outlet', {
      example: '400mm',
      above: 0,
      max: 20_000,
      optional: true,
    }),
    trunkLength: lengthField('right cones: length of the trunk below the crossing, for its own sheet', {
      example: '300mm',
      above: 0,
      max: 20_000,
      optional: true,
    }),
    seam: angleField('station of each leg at which it is cut open; station 0 faces away from the other leg', {
      default: '0',
      example: '90',
    }),
    step: angleField('angle between bend lines', {
      default: '15',
      example: '10',
      min: DEGREE,
      max: 90 * DEGREE,
    }),
    ...plateFields,
    ...seamFields,
  },
  examples: [
    'breech --trunk 300mm --legs 200mm --height 300mm --spread 320mm',
    'breech --trunk 12in --legs 8in,6in --height 14in --spread 14in --thickness 1/8in --sizes inside',
    'breech --trunk 300mm --legs 200mm --angle 45 --length 450mm --trunk-length 300mm',
  ],
  sheets: ['breech leg N', 'breech trunk'],
  draw: (asked, setting) => {
    const request = readBreech(asked);
    const parts = solveParts(request);
    const laid = parts.map((part) => develop(part, asked.seam, request));
    return parts.map((part, i) => partSheet({ request, parts, laid, index: i, part }, setting));
  },
  scene: (asked) => {
    const request = readBreech(asked);
    const parts = solveParts(request);
    return shellScene(
      say`The finished breech`,
      shellsOf(
        request,
        parts,
        parts.map((part) => develop(part, asked.seam, request)),
      ),
      {
        square: true,
      },
    );
  },
});

/** A breech as it was asked for, radii on the middle of the plate. */
export interface BreechRequest extends PlateValues, SeamValues {
  readonly trunk: number;
  readonly legs: readonly [number, number];
  readonly radius: number;
  readonly outlets: readonly [number, number];
  readonly height: number | undefined;
  readonly spread: number | undefined;
  readonly angle: number | undefined;
  readonly length: number | undefined;
  readonly trunkLength: number | undefined;
  readonly seam: number;
  readonly step: number;
}

/** One piece: a leg, or the trunk, which is cut at its upper end. */
export interface BreechPart extends BreechLeg {
  readonly kind: 'leg' | 'trunk';
  readonly name: string;
  readonly place: (p: Vec3) => Vec3;
}

type Asked = Omit<BreechRequest, 'radius' | 'outlets'>;

const readBreech = (asked: Asked): BreechRequest => {
  const [first, second] = asked.legs;
  const level = [asked.height, asked.spread].filter((size) => size !== undefined).length;
  const right = [asked.angle, asked.length].filter((size) => size !== undefined).length;
  if ((level === 2) === (right === 2) || level === 1 || right === 1)
    throw requestError(
      level > 0 && right > 0 ? 'angle' : 'height',
      'two-forms',
      level > 0 && right > 0
        ? say`sizes of level outlets and of right cones are both given`
        : say`the breech’s form is not given`,
      say`give height and spread for level outlets, or angle and length for right cones`,
    );
  const out = toMean(asked);
  const radii = [asked.trunk, first, second].map((d) => d / 2 + out) as [number, number, number];
  if (Math.min(...radii) <= 0)
    throw jointError(
      'thickness',
      'too-thick',
      say`the plate is thicker than an outlet is wide`,
      say`give a thinner plate`,
    );
  return { ...asked, radius: radii[0], outlets: [radii[1], radii[2]] };
};

const turned = ({ x, y, z }: Vec3): Vec3 => vec3(-x, -y, z);

const solveParts = (request: BreechRequest): readonly BreechPart[] => {
  const { radius, outlets, height, spread, angle, length, trunkLength } = request;
  const named = (legs: readonly [BreechLeg, BreechLeg], place: (p: Vec3) => Vec3): readonly BreechPart[] => [
    { ...legs[0], kind: 'leg', name: 'breech leg 1', place },
    { ...legs[1], kind: 'leg', name: 'breech leg 2', place: (p) => turned(place(p)) },
  ];
  if (height !== undefined && spread !== undefined) {
    const legs = levelLegs({ trunk: radius, legs: outlets, height, spread });
    checkApart(legs, spread);
    return named(legs, (p) => p);
  }
  const lean = angle as number;
  const along = length as number;
  if (Math.hypot(along, Math.min(...outlets)) <= radius)
    throw jointError(
      'length',
      'leg-too-short',
      say`the outlets lie inside the ball of ${told(2 * radius)} around the crossing`,
      say`give a length of more than ${told(radius)}`,
    );
  const solved = sphereLegs({ trunk: radius, legs: outlets, angle: lean, length: along }, trunkLength ?? 0);
  checkClear(solved.legs, along);
  const [c, s] = [Math.cos(lean), Math.sin(lean)];
  const legs = named(solved.legs, ({ x, y, z }) => vec3(c * x + s * z, y, c * z - s * x));
  return trunkLength === undefined
    ? legs
    : [
        ...legs,
        {
          ...solved.trunk,
          kind: 'trunk',
          name: 'breech trunk',
          place: ({ x, y, z }) => vec3(x, y, z - trunkLength),
        },
      ];
};

/** Signed distance of a point past a plane, into what is kept. */
const past = ({ normal, constant }: EndPlane, p: Vec3): number => dot3(normal, p) - constant;

/** Throws where the outlets of level legs run into each other. */
const checkApart = (legs: readonly [BreechLeg, BreechLeg], spread: number): void => {
  const inside = legs.some(({ shape, planes }) =>
    planes.some((plane) => past(plane, vec3(shape.offset - shape.small, 0, shape.height)) <= 0),
  );
  if (!inside) return;
  const least = legs[0].shape.small + legs[1].shape.small;
  throw jointError(
    'spread',
    'outlets-meet',
    say`outlets ${told(spread)} apart run into each other`,
    say`give more than ${told(least)}`,
  );
};

/** Throws where an outlet of a right leg is cut by a joint. */
const checkClear = (legs: readonly [BreechLeg, BreechLeg], length: number): void => {
  const cut = legs.some(({ shape, planes }) =>
    planes.some((plane) =>
      [1, -1].some((side) => past(plane, vec3(side * shape.small, 0, shape.height)) <= 1e-6),
    ),
  );
  if (!cut) return;
  throw jointError(
    'length',
    'leg-too-short',
    say`legs ${told(length)} long end inside the joint`,
    say`give more length, or a larger angle between the legs`,
  );
};

const develop = (part: BreechPart, seam: number, { step, trunk }: BreechRequest): ConePattern => {
  checkBends(step, trunk);
  const mate = planesMate(part.planes);
  try {
    const laid = developCone(
      part.shape,
      seam,
      seam + TURN,
      part.kind === 'leg' ? { large: mate } : { small: mate },
      0,
    );
    const low = Math.min(
      ...Array.from({ length: 180 }, (_, i) => {
        const [from, to] = laid.span(seam + (i * TURN) / 180);
        return to - from;
      }),
    );
    if (low < 1)
      throw jointError(
        part.kind === 'leg' ? 'length' : 'trunk-length',
        'part-too-short',
        say`nothing is left of ${part.name} along its shortest line`,
        say`give more length`,
      );
    return laid;
  } catch (error) {
    if (!(error instanceof ConeMissError)) throw error;
    throw jointError(
      'angle',
      'legs-miss',
      say`a line of a leg never meets the joint`,
      say`give a smaller taper, or a larger angle between the legs`,
    );
  }
};

const shellsOf = (
  { thickness }: BreechRequest,
  parts: readonly BreechPart[],
  laid: readonly ConePattern[],
): readonly Shell[] =>
  parts.map(({ name, place }, i) => ({
    id: name,
    name,
    parts: [[itemAt(laid, i).flat]],
    thickness,
    place,
  }));

interface Drawn {
  readonly request: BreechRequest;
  readonly parts: readonly BreechPart[];
  readonly laid: readonly ConePattern[];
  readonly index: number;
  readonly part: BreechPart;
}

const partSheet = ({ request, parts, laid, index, part }: Drawn, setting: Setting): Sheet => {
  const { seam, step, angle } = request;
  const pattern = itemAt(laid, index);
  const shortest = Math.min(
    ...Array.from({ length: 72 }, (_, i) => pattern.span(seam + (i * TURN) / 72)).map(
      ([low, high]) => high - low,
    ),
  );
  return rolledSheet(
    {
      name: part.name,
      heading: part.kind === 'trunk' ? say`Breech, trunk` : say`Breech, leg ${index + 1} of 2`,
      subject: describe(request, setting),
      laid: pattern,
      from: seam,
      to: seam + TURN,
      step,
      plate: request,
      last: [
        part.kind === 'trunk'
          ? say`Set it with stations 0 and 180 toward the legs.`
          : say`Set the legs crotch to crotch, stations 180 together. The joints lie in planes: try them on a flat table or against a plate.`,
        say`Tack at the crotch and at both sides before you weld. Check every outlet in four directions.`,
      ],
      facts: [
        ...(angle === undefined ? [] : ([[say`Leg to the trunk’s axis`, angleOf(angle)]] as const)),
        [say`Shortest line`, lengthOf(shortest)],
      ],
      picture: shellPicture(
        say`The finished breech; ${part.kind === 'trunk' ? say`the trunk` : `${translateOf('breech', 'leg')} ${index + 1}`} heavy`,
        shellsOf(request, parts, laid),
        { square: true, about: part.name },
      ),
      cautions: [
        say`A breech is weakest at its crotch: whether it needs a reinforcing plate is for a qualified person.`,
      ],
    },
    setting,
  );
};

const describe = (request: BreechRequest, setting: Setting): readonly string[] => {
  const { trunk, legs, height, spread, angle, length, thickness } = request;
  const given = (size: number): string => writeGiven(size, setting);
  return [
    say`Trunk ⌀ ${given(trunk)}, outlets ⌀ ${legs.map(given).join(say` and `)}`,
    height !== undefined && spread !== undefined
      ? say`Leaning cones, outlets level, ${given(height)} up and ${given(spread)} apart`
      : say`Right cones round one ball, ${formatAngle(angle as number)} from the trunk’s axis, ${given(length as number)} from the crossing`,
    say`Station 0 of a leg faces away from the other leg, 180 is the crotch. All joints are plane`,
    thickness === 0
      ? say`Thin sheet: no allowance for thickness`
      : say`Plate ${writeSize(thickness, setting)}, ${describeSizes(request)}; laid out on the middle of the plate`,
  ];
};

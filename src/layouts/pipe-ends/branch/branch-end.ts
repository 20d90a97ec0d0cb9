import type { Measured } from '../../../drawing/measured.ts';
import type { Fact, Picture, Sheet } from '../../../drawing/model.ts';
import { scenePictures } from '../../../drawing/scene-picture.ts';
import { developEnd, MissError } from '../../../geometry/development.ts';
import { itemAt } from '../../../lists.ts';
import { reachAt, type Contact } from '../../../geometry/reach.ts';
import { jointError, requestError } from '../../../issue.ts';
import { nameBody, type Body, type BodySpec } from '../../../joint/bodies/body.ts';
import { solidsMate } from '../../../joint/solid-mate.ts';
import type { Solid } from '../../../joint/solid.ts';
import { boreSolid, clearSolid } from '../../../joint/stock-solid.ts';
import type { Scene } from '../../../scene/scene.ts';
import { cutAgainst } from '../../../scene/stock-shape.ts';
import { countStations, type BandValues } from '../../../sheets/band-fields.ts';
import { bandSheet } from '../../../sheets/band-sheet.ts';
import { describeStock } from '../../../sheets/band-words.ts';
import { drawCutBand, type CutBand } from '../../../sheets/cut-band.ts';
import { insideSheets } from '../../../sheets/inside-faces.ts';
import { below, fromReference, rise, shown, taken } from '../../../sheets/measured.ts';
import { openingSheet, type OpeningAsk } from '../../../sheets/opening-sheet.ts';
import { weldData } from '../../../sheets/weld-data.ts';
import { stockAcross, stockReach, type Stock } from '../../../stock/stock.ts';
import { formatAngle } from '../../../units/angle.ts';
import { told } from '../../../units/format.ts';
import { lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth, writeGiven } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import {
  openedAmong,
  openedBody,
  openingAsk,
  wholeBody,
  type AmongAsk,
  type SeenBody,
} from './branch-holes.ts';
import { branchScene } from './branch-scene.ts';
import { scribingBand } from './scribing-band.ts';

/** A branch on one body or several, mm and radians. */
export interface BranchJoint {
  readonly branch: Stock;
  readonly on: readonly BodySpec[];
  readonly angle: number;
  /** Offset of the axes, positive toward station 90. */
  readonly offset: number;
  readonly set: 'on' | 'in';
  readonly gap: number;
  readonly contact: Contact;
  /** Whether a hole is cut in what it meets; left out, what is usual there. */
  readonly opening: 'yes' | 'none' | undefined;
  /** Groove angle of the weld, where it is asked for. */
  readonly groove: number | undefined;
}

const buildBodies = ({ branch, on, angle, offset, set, gap }: BranchJoint): readonly Body[] => {
  const wider = set === 'in' ? gap : 0;
  // Among several bodies one may well reach past another: only the whole must be met everywhere.
  const alone = on.length === 1;
  const [from, to] = stockAcross(branch);
  return on.map((spec, i) =>
    spec.build(
      {
        radius: alone ? stockReach(branch) + wider : 1e-6,
        across: alone ? [from - wider, to + wider] : [0, 0],
        seat: set === 'in' ? 'inside' : 'outside',
        drawn: stockReach(branch) + wider,
        main: i === 0,
        angle,
        offset,
      },
      spec.frame,
    ),
  );
};

/** What the branch's end is drawn to: the outside of every body, or its inside for a set-in branch. */
const seatOf = (bodies: readonly Body[], set: 'on' | 'in'): readonly Solid[] =>
  bodies.map(({ outside, inside, designation }) => {
    if (set === 'on') return outside;
    if (inside) return inside;
    throw requestError(
      'set',
      'no-inside',
      say`a set-in branch is drawn to the inside of ${designation}, whose inside is not known`,
      say`give the body with its wall or schedule, or set the branch on`,
    );
  });

/** Runs what follows the branch to its bodies, and names a miss by its station. */
const meeting = <T>({ branch, on }: BranchJoint, run: () => T): T => {
  try {
    return run();
  } catch (error) {
    if (!(error instanceof MissError)) throw error;
    const station = formatAngle((2 * Math.PI * error.s) / branch.girth, 1);
    throw jointError(
      'branch',
      'branch-misses',
      say`the branch, ${told(2 * stockReach(branch))} across, misses ${on.map((body) => nameBody(body.designation)).join(say` and `)} at station ${station}`,
      say`choose a smaller branch or move the body: every line along the branch must meet it`,
    );
  }
};

/** The sheets of a branch: its end, and the opening in what it meets. */
export const drawBranch = (joint: BranchJoint, making: BandValues, setting: Setting): readonly Sheet[] =>
  meeting(joint, () => {
    const bodies = buildBodies(joint);
    const opens = opensUp(joint, bodies);
    const { branch, contact, gap, set } = joint;
    const mate = solidsMate(seatOf(bodies, set));
    const band = drawCutBand(branch, { mate, contact, gap }, making, (bodies[0] as Body).words, setting);
    const { ordinate } = band.development;
    const pictures = scenePictures(jointScene(joint, bodies, drawnBodies(joint, bodies), ordinate, setting));
    return [
      branchEnd(joint, bodies, making, band, pictures, opens, setting),
      ...insideSheets(
        joint.branch,
        { mate: solidsMate(seatOf(bodies, joint.set)), contact: joint.contact, gap: joint.gap },
        seatOf(bodies, joint.set),
        describeJoint(joint, bodies, setting),
        setting,
      ),
      ...(opens ? [secondSheet(joint, bodies, making, pictures, setting)] : []),
    ];
  });

/**
 * True where a hole is cut: on bends and several bodies a branch is far more often a leg or a brace than a nozzle, and stock
 * without a bore that is set on needs none.
 */
const opensUp = ({ opening, branch, set }: BranchJoint, bodies: readonly Body[]): boolean => {
  if (opening !== undefined) return opening === 'yes';
  const hollow = branch.section.inside !== undefined || set === 'in';
  return hollow && bodies.length === 1 && bodies[0]?.outside.kind !== 'bend';
};

/** A branch and what it meets, in space. */
export const branchInSpace = (joint: BranchJoint, setting: Setting): Scene =>
  meeting(joint, () => {
    const bodies = buildBodies(joint);
    const { branch, contact, gap, set } = joint;
    const { ordinate } = developEnd(branch.outline, { mate: solidsMate(seatOf(bodies, set)), contact, gap });
    return jointScene(joint, bodies, seenBodies(joint, bodies), ordinate, setting);
  });

const jointScene = (
  { branch, gap, set }: BranchJoint,
  bodies: readonly Body[],
  seen: readonly SeenBody[],
  ordinate: (s: number) => number,
  setting: Setting,
): Scene =>
  branchScene(
    {
      bodies: seen,
      stock: branch,
      end: cutAgainst(ordinate, solidsMate(seatOf(bodies, set)), gap),
      passes: set === 'in' ? throughOutside(branch, bodies) : undefined,
    },
    setting,
  );

/** What the opening follows through what the branch meets. */
const throughAsk = ({ branch, set, gap }: BranchJoint): AmongAsk => ({
  branch,
  through: set === 'on' ? boreSolid(branch) : clearSolid(branch, gap),
  clears: set === 'in',
});

const soleAsk = (joint: BranchJoint, { outside }: Body): OpeningAsk => {
  const { branch, through, clears } = throughAsk(joint);
  return openingAsk(branch, through, clears, outside);
};

/** What a branch meets, with the holes cut in it. */
const seenBodies = (joint: BranchJoint, bodies: readonly Body[]): readonly SeenBody[] => {
  if (!opensUp(joint, bodies)) return bodies.map(wholeBody);
  const [only, more] = bodies;
  if (only && !more) return [openedBody(only, soleAsk(joint, only))];
  return bodies.map((body) => openedAmong(body, throughAsk(joint)));
};

/**
 * The same as a sheet's pictures show it, where a branch that goes through its hole fills it but for a gap too narrow to draw. No
 * wall stands on paper that is not known.
 */
const drawnBodies = (joint: BranchJoint, bodies: readonly Body[]): readonly SeenBody[] => {
  const whole = bodies.map(wholeBody);
  if (joint.set === 'in') return whole;
  return seenBodies(joint, bodies).map((seen, i) => (seen.sketched ? itemAt(whole, i) : seen));
};

/** Where a set-in branch goes through the outside of what it meets. */
const throughOutside = (branch: Stock, bodies: readonly Body[]): ((s: number) => number) =>
  developEnd(branch.outline, { mate: solidsMate(seatOf(bodies, 'on')), contact: 'od', gap: 0 }).ordinate;

/** Reaches that differ by less than this are one touch, mm. */
const SAME_TOUCH = 1e-6;

/** Lines along the branch that are looked at to tell which bodies it touches. */
const LOOKS = 720;

/** Those of several bodies that the end nowhere reaches first: without them it would be the same. */
const untouched = (
  { branch: { outline, girth }, contact, set }: BranchJoint,
  bodies: readonly Body[],
): readonly Body[] => {
  if (bodies.length === 1) return [];
  const at = Array.from({ length: LOOKS }, (_, i) => (i * girth) / LOOKS);
  const reaches = (some: readonly Body[]): readonly (number | undefined)[] => {
    const mate = solidsMate(seatOf(some, set));
    return at.map((s) => reachAt(outline, mate, contact, s)?.z);
  };
  const all = reaches(bodies);
  return bodies.filter((body) => {
    const without = reaches(bodies.filter((other) => other !== body));
    return all.every((z, i) => z !== undefined && Math.abs(z - (without[i] ?? Infinity)) < SAME_TOUCH);
  });
};

const branchEnd = (
  joint: BranchJoint,
  bodies: readonly Body[],
  making: BandValues,
  band: CutBand,
  pictures: readonly Picture[],
  opens: boolean,
  setting: Setting,
): Sheet => {
  const { branch, contact, gap, set } = joint;
  const first = itemAt(bodies, 0);
  const seat = seatOf(bodies, set);
  const { high, low } = band.development;
  const weld = weldData(
    { stock: branch, mate: solidsMate(seatOf(bodies, 'on')), groove: joint.groove },
    band.paper,
    countStations(making),
  );
  const along = (label: string, length: number, measured: Measured): Fact =>
    length < -1e-9
      ? [say`${label} past ${first.datum}`, shown(lengthOf(-length), taken(measured, -1))]
      : [say`${label} to ${first.datum}`, shown(lengthOf(length), measured)];
  return bandSheet(
    {
      name: 'branch end',
      heading: say`Branch end`,
      stock: branch,
      band,
      making,
      about: describeJoint(joint, bodies, setting),
      contact,
      cut: set === 'in' ? say`drawn to the inside` : undefined,
      lines: [{ which: 'upper', contact, gap, solids: seat }],
      wrap: say`Wrap it printed side out, station 0 (${stationZero(first)}) on the branch’s top line, reference edge toward the part you keep, until that edge meets itself.`,
      after: [
        say`Cut square to the surface on the line, then bevel outside.`,
        !opens
          ? say`Try it in place: it stands on the outside. Cut no hole in what it stands on.`
          : set === 'on'
            ? say`Try it in place before you cut the opening.`
            : say`Cut and bevel the opening first: the branch goes through it until its end is flush with the inside.`,
      ],
      facts: [
        [say`Cutback, long to short`, shown(lengthOf(high - low), rise('upper'))],
        along(say`Reference edge`, -band.reference, fromReference(band)),
        along(say`Long point`, -high, below('high', 'upper')),
        along(say`Short point`, -low, below('low', 'upper')),
        ...weld.facts,
      ],
      tables: [band.table, ...weld.tables],
      pictures,
      cautions: [
        ...untouched(joint, bodies).map(
          ({ designation }) =>
            say`The end does not touch ${designation}: be sure that it lies where you mean it.`,
        ),
        ...bodies.flatMap((body) => body.cautions),
        ...weld.cautions,
      ],
    },
    setting,
  );
};

const stationZero = ({ words }: Body): string => words[0].toLowerCase().replace('tdc', 'TDC');

const describeJoint = (joint: BranchJoint, bodies: readonly Body[], setting: Setting): readonly string[] => {
  const { branch, on } = joint;
  return [
    say`${branch.designation} on ${bodies.map((body) => body.designation).join(say` and `)}`,
    ...bodies.map((body, i) =>
      bodies.length > 1
        ? `${body.designation}: ${body.placing(setting)}${describeMove(on[i], setting)}`
        : body.placing(setting),
    ),
    describeSet(joint, setting),
  ];
};

/** How it is set, and what the gap moves. */
const describeSet = ({ set, gap }: BranchJoint, setting: Setting): string => {
  if (gap === 0) return set === 'on' ? say`Set-on, no gap` : say`Set-in, no gap`;
  const length = writeGiven(gap, setting);
  return set === 'on'
    ? say`Set-on, root gap ${length}: the end backs off by it along its axis`
    : say`Set-in, gap ${length}: the hole clears the branch by it all around, and the end stops short of the inside by it`;
};

const describeMove = (spec: BodySpec | undefined, setting: Setting): string => {
  if (!spec?.moved) return '';
  const { roll, ahead } = spec;
  return [
    roll === 0 ? '' : say`, turned ${formatAngle(roll)} about the branch’s axis`,
    ahead === 0
      ? ''
      : say`, ${writeBoth(Math.abs(ahead), setting)} ${ahead > 0 ? say`ahead of` : say`short of`} the work point`,
  ].join('');
};

/** The opening, where the body lies flat; else the band to scribe it by, which says why. */
const secondSheet = (
  joint: BranchJoint,
  bodies: readonly Body[],
  making: BandValues,
  pictures: readonly Picture[],
  setting: Setting,
): Sheet => {
  const { branch, set, gap } = joint;
  const about = describeJoint(joint, bodies, setting);
  const [only, more] = bodies;
  if (only && !more && typeof only.opening !== 'string') {
    const ground = only.opening(setting.paperThickness / 2);
    const { stock, name } = ground;
    return openingSheet(
      {
        name: ground.sheet,
        heading: ground.sheet === 'opening' ? say`Opening in ${name}` : say`Header opening`,
        ground,
        ask: soleAsk(joint, only),
        words: only.words,
        about: [
          ...about,
          ...(stock ? [describeStock(stock, setting)] : []),
          set === 'on'
            ? say`Opening: the branch’s bore on the outside of ${name}`
            : say`Opening: clears the branch’s outside and the gap through the whole wall`,
        ],
        upper: say`the end marked ▲ 0° toward station 0 of the branch`,
        after: [
          say`Try the cut branch end over the mark before you cut.`,
          set === 'on'
            ? say`Cut square to the surface, inside the line. The branch’s end is what is beveled.`
            : say`Cut square to the surface, inside the line, then bevel the hole: the branch goes through it.`,
        ],
        pictures,
      },
      setting,
    );
  }
  const why =
    only && !more && typeof only.opening === 'string'
      ? only.opening
      : say`Several bodies do not lie flat in one piece, so no opening sheet would be true on them`;
  const mate = solidsMate(bodies.map((body) => body.outside));
  return scribingBand({ branch, mate, set, gap, why, bodies, about }, making, pictures, setting);
};

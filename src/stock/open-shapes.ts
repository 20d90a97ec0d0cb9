import { angleSection, beamSection, channelSection, flangeThickness } from '../geometry/shapes.ts';
import { parseAngle } from '../units/angle.ts';
import { told } from '../units/format.ts';
import type { Refusal } from '../units/notation.ts';
import { say, translate } from '../words/say.ts';
import { findRolled, rolledSection, type RolledSizes } from './rolled.ts';
import { joinSizes, readClause, readSizes, type Read, type Reading } from './shaped-sizes.ts';

export const readAngle = (reading: Reading): Read => {
  const { refuse } = reading;
  const sizes = readSizes(reading, ['leg', 'leg', 'thickness']);
  const [a = 0, b = 0, thickness = 0] = sizes.map(({ value }) => value);
  const [root, toe] = [readClause(reading, 'root'), readClause(reading, 'toe')];
  const [long, short] = [Math.max(a, b), Math.min(a, b)];
  if (thickness >= short)
    throw refuse(
      'wall-past-leg',
      say`the thickness ${told(thickness)} leaves nothing of a leg of ${told(short)}`,
      say`give a thickness below ${told(short)}`,
    );
  const rounding = { root: root?.value ?? 0, toe: toe?.value ?? 0 };
  checkRounding(refuse, rounding, thickness, short - thickness);
  const angle = { long, short, thickness, ...rounding };
  return {
    kind: 'angle',
    designation: `angle ${joinSizes(sizes, reading)}${root?.print ?? ''}${toe?.print ?? ''}`,
    section: angleSection(angle),
    source: 'given',
    ...describeRolled({ kind: 'angle', ...angle }),
  };
};

/** A fillet and a toe that find room: the toe in the thickness, both along the inside of the leg or flange. */
const checkRounding = (
  refuse: Refusal,
  { root, toe }: { readonly root: number; readonly toe: number },
  thickness: number,
  inside: number,
): void => {
  if (toe > thickness)
    throw refuse(
      'toe-off-size',
      say`the toe radius ${told(toe)} is more than the thickness ${told(thickness)}`,
      say`give a toe radius up to ${told(thickness)}`,
    );
  if (root + toe > inside)
    throw refuse(
      'root-off-size',
      say`the root radius ${told(root)} and the toe radius ${told(toe)} do not fit the inside, ${told(inside)}`,
      say`give a root radius up to ${told(Math.max(0, inside - toe))}`,
    );
};

/** `8%`, `1:12` or an angle: how far the inside of a flange rises for each unit of its width. */
const readTaper = ({
  clauses,
  options,
  refuse,
}: Reading): { readonly value: number; readonly print: string } | undefined => {
  const text = clauses.get('taper');
  if (text === undefined) return undefined;
  const value = Math.tan(parseAngle(text, options));
  if (!(value >= 0 && value < 0.5))
    throw refuse(
      'taper-off-size',
      say`a flange does not taper by ${text}`,
      say`give a taper from 0 to 50%, such as 8% or 1:6`,
    );
  return { value, print: ` taper ${text}` };
};

export const readFlanged = (reading: Reading): Read => {
  const { head, refuse } = reading;
  const kind = head === 'beam' ? 'beam' : 'channel';
  const sizes = readSizes(reading, ['depth', 'width', 'web', 'flange']);
  const [depth = 0, width = 0, web = 0, flange = 0] = sizes.map(({ value }) => value);
  const [root, toe, taper] = [readClause(reading, 'root'), readClause(reading, 'toe'), readTaper(reading)];
  const overhang = kind === 'beam' ? (width - web) / 2 : width - web;
  if (overhang <= 0)
    throw refuse(
      'web-past-width',
      say`the web ${told(web)} is as thick as the ${translate(kind)} is wide, ${told(width)}`,
      say`give a web below ${told(width)}`,
    );
  const flanged = {
    depth,
    width,
    web,
    flange,
    root: root?.value ?? 0,
    toe: toe?.value ?? 0,
    taper: taper?.value ?? 0,
    meanAt: overhang / 2,
  };
  const thick = flangeThickness(flanged, overhang);
  if (thick.toe <= 0)
    throw refuse(
      'taper-off-size',
      say`the taper leaves nothing of the flange at its toe`,
      say`give a taper below ${((200 * flange) / overhang).toFixed(1)}%`,
    );
  if (2 * thick.web >= depth)
    throw refuse(
      'flange-past-middle',
      say`two flanges of ${told(flange)} leave no web in a depth of ${told(depth)}`,
      say`give a flange below ${told(depth / 2 - (thick.web - flange))}`,
    );
  checkRounding(refuse, flanged, thick.toe, Math.min(overhang, depth / 2 - thick.web));
  return {
    kind,
    designation: `${kind} ${joinSizes(sizes, reading)}${root?.print ?? ''}${toe?.print ?? ''}${taper?.print ?? ''}`,
    section: kind === 'beam' ? beamSection(flanged) : channelSection(flanged),
    source: 'given',
    ...describeRolled({ kind, ...flanged }),
  };
};

export const readRolled = (reading: Reading): Read => {
  const { head, clauses, refuse } = reading;
  const rolled = findRolled(head, clauses.get(head) ?? '', refuse);
  return {
    kind: rolled.sizes.kind,
    designation: rolled.designation,
    section: rolledSection(rolled.sizes),
    source: rolled.source,
    ...describeRolled(rolled.sizes, rolled.k),
  };
};

const describeRolled = (sizes: RolledSizes, given?: number): Pick<Read, 'sizes' | 'rolled'> => {
  if (sizes.kind === 'angle')
    return {
      sizes: [
        { label: say`long leg`, length: sizes.long },
        { label: say`short leg`, length: sizes.short },
        { label: say`thickness`, length: sizes.thickness },
      ],
      rolled: { ...sizes, k: given ?? sizes.thickness + sizes.root },
    };
  const overhang = sizes.kind === 'beam' ? (sizes.width - sizes.web) / 2 : sizes.width - sizes.web;
  const { web } = flangeThickness(sizes, overhang);
  const trim = sizes.root * Math.tan((Math.PI / 2 - Math.atan(sizes.taper)) / 2);
  return {
    sizes: [
      { label: say`depth`, length: sizes.depth },
      { label: say`flange width`, length: sizes.width },
      { label: say`web`, length: sizes.web },
      { label: say`flange`, length: sizes.flange },
    ],
    rolled: { ...sizes, k: given ?? web + trim },
  };
};

import type { Skin } from '../../geometry/skin.ts';
import { add3, scale3, vec3, type Vec3 } from '../../geometry/vector.ts';
import type { Stock } from '../../stock/stock.ts';
import type { Setting } from '../../units/setting.ts';
import { translate } from '../../words/say.ts';
import type { Lay } from '../lay.ts';
import type { Solid } from '../solid.ts';

/** Names of the branch's quarter lines 0, 90, 180, 270. */
export type QuarterWords = readonly [string, string, string, string];

/** What a body needs to know of the joint it is in. */
export interface Ask {
  /** Outside radius of the branch that must sit on this body alone, mm; next to nothing where several are met. */
  readonly radius: number;
  /** From where to where it reaches along its y, mm from its axis: what must find room on a straight body. */
  readonly across: readonly [number, number];
  /** Which face the branch is drawn to: the outside, or the inside of a body it is set in. */
  readonly seat: 'outside' | 'inside';
  /** The same as pictures show it. */
  readonly drawn: number;
  /** True for the body whose axis the side view lays level. */
  readonly main: boolean;
  /** The layout's own `angle` and `offset`, for bodies that give none; undefined where several bodies are met. */
  readonly angle: number;
  readonly offset: number;
}

/** How a body may be moved among several: turned about the branch's axis, and moved along it, away from the branch. */
export interface Frame {
  readonly point: (p: Vec3) => Vec3;
  readonly direction: (v: Vec3) => Vec3;
}

/** A body's outside as an opening is traced on it. */
export interface OpeningGround {
  /** The skin, in its own axes; its lines run along `d`, toward station 0 of a branch that stands square. */
  readonly skin: Skin;
  /** A point or direction of the branch's stock frame in the skin's axes. */
  readonly local: Frame;
  /** Positions that face the branch, and the one in the middle: the sheet's 0° line. */
  readonly facing: readonly [number, number];
  readonly middle: number;
  /** Where the plane through the work point, square to the body's axis, crosses the line at `s`, mm along it. */
  readonly level: (s: number) => number;
  /** Where a place on the skin lies on the printed sheet, whose origin is the crossing of 0° line and square line, mm. */
  readonly place: (s: number, t: number) => { readonly x: number; readonly y: number };
  /** True where the lines of the skin are parallel on the sheet and `s` is the length round it. */
  readonly parallel: boolean;
  /** What to check with a tape before the sheet is laid, if anything. */
  readonly girth: number | undefined;
  /** Lengths to set the sheet out by, as label and mm. */
  readonly facts: readonly (readonly [string, number])[];
  /** How the 0° line and the square line are found on the body. */
  readonly strike: string;
  /** What the body is called in a sentence: `the header`, `the cone`. */
  readonly name: string;
  /** The stock it is, where the sheet says its sizes. */
  readonly stock?: Stock;
  /** Name of the opening's sheet. */
  readonly sheet: string;
  /** How those who prove the finished file lay the sheet back on the body, and the branch's frame in the lay's; none where there is no simple way to say it. */
  readonly back?: { readonly lay: Lay; readonly local: Frame };
}

/** Words at a place of a picture. */
export interface ViewLabel {
  readonly at: Vec3;
  /** The direction they are best put from there. */
  readonly toward?: Vec3;
  readonly text: string;
  readonly view: 'side' | 'end';
}

/** A length shown in a picture, between two places. */
export interface ViewLength {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly length: number;
  /** `⌀` before a diameter. */
  readonly sign: string;
  readonly view: 'side' | 'end';
}

/** An angle shown in the side view, between two directions from a place. */
export interface ViewAngle {
  readonly at: Vec3;
  readonly from: Vec3;
  readonly to: Vec3;
  readonly angle: number;
}

/** A body as far as it is drawn. */
export interface DrawnBody {
  readonly outside: Solid;
  /** Its bore, where the wall is known. */
  readonly inside?: Solid;
  /**
   * Where it is cut off, mm: along its axis from its own point, for straight bodies and for the straight flange of a head; from the
   * corner along each leg of a bend.
   */
  readonly reach?: readonly [number, number];
}

/** A body as pictures show it. */
export interface BodyView {
  readonly drawn: DrawnBody;
  /** Center lines. */
  readonly centers: readonly (readonly Vec3[])[];
  readonly labels: readonly ViewLabel[];
  readonly lengths: readonly ViewLength[];
  readonly angles: readonly ViewAngle[];
  /** The picture's right and up in the view from station 90; right × up points to the eye. */
  readonly right: Vec3;
  readonly up: Vec3;
}

/** A body that a branch's end can meet, placed in the branch's stock frame. */
export interface Body {
  readonly designation: string;
  readonly outside: Solid;
  /** Inside, which a set-in branch is drawn to; undefined where the body's wall is not given. */
  readonly inside: Solid | undefined;
  readonly words: QuarterWords;
  /** How it lies, in words. */
  readonly placing: (setting: Setting) => string;
  /** What lies at z = 0 on the branch's axis: `center of the header`. */
  readonly datum: string;
  readonly view: BodyView;
  /** Where an opening can be laid flat; a sentence that says why it cannot where there is none. */
  readonly opening: ((lift: number) => OpeningGround) | string;
  readonly cautions: readonly string[];
}

/** A body as it is called in the language in force: `pipe NPS 8 sch 40` is `tubo NPS 8 sch 40`. Sizes stay as they are typed. */
export const nameBody = (designation: string): string => designation.replace(/^(?:pipe|plate)\b/, translate);

/** A body as it was asked for. */
export interface BodySpec {
  readonly designation: string;
  /**
   * Puts the body in the branch's frame.
   * @throws UserError of kind `joint` where the branch does not sit on it, naming the dimension and its limit
   */
  readonly build: (ask: Ask, frame: Frame) => Body;
  readonly frame: Frame;
  /** How far `roll` turns it (radians) and `ahead` moves it (mm), which only mean something among several bodies. */
  readonly roll: number;
  readonly ahead: number;
  readonly moved: boolean;
  /** The words that say how it lies, in the order of the alphabet. */
  readonly lies: string;
}

/** The frame that leaves everything where it is. */
export const HERE: Frame = { point: (p) => p, direction: (v) => v };

/** The frame that turns by `roll` about the branch's axis (from station 0 toward 90) and moves `ahead` mm along it. */
export const movedFrame = (roll: number, ahead: number): Frame => {
  const [c, s] = [Math.cos(roll), Math.sin(roll)];
  const direction = ({ x, y, z }: Vec3): Vec3 => vec3(x * c - y * s, x * s + y * c, z);
  return { direction, point: (p) => add3(direction(p), vec3(0, 0, ahead)) };
};

/** The frame whose axes are the given ones (in the branch's frame) with its origin at `origin`, read the other way. */
export const localAxes = (origin: Vec3, x: Vec3, y: Vec3, z: Vec3): Frame => {
  const direction = (v: Vec3): Vec3 =>
    vec3(
      v.x * x.x + v.y * x.y + v.z * x.z,
      v.x * y.x + v.y * y.y + v.z * y.z,
      v.x * z.x + v.y * z.y + v.z * z.z,
    );
  return { direction, point: (p) => direction(add3(p, scale3(origin, -1))) };
};

import { BeyondLimit, limits } from './limits.ts';
import type { Path, PathSegment, Subpath } from './paths.ts';
import {
  apply,
  chain,
  freshState,
  growth,
  type GraphicsState,
  identity,
  type Matrix,
} from './pdf-graphics.ts';
import { arrayOf, dictOf, isText, nameOf, numberOf, type PdfDict, type PdfValue } from './pdf-values.ts';
import { present } from './present.ts';
import type { Vec2 } from './space.ts';
import { say } from '../words/say.ts';

const millimetresPerPoint = 25.4 / 72;

/** What a stroke and a fill have in common. Points are in page points, the transform applied; lengths in mm. */
interface Painted {
  /** Place in the order of painting: what comes later lies over what came before. */
  readonly order: number;
  readonly layer: string;
  readonly path: Path;
  /** Components of the colour as set: one is grey, three are red, green, blue. Black is [0] or [0, 0, 0]. */
  readonly colour: readonly number[];
  /** Outlines to which painting was held when this was painted: it shows only inside all of them. */
  readonly clips: readonly Path[];
}
export interface PdfStroke extends Painted {
  /** Line width, mm. */
  readonly width: number;
  /** Lengths of dashes and gaps, mm; none for a continuous line. */
  readonly dash: readonly number[];
}
export interface PdfFill extends Painted {
  readonly rule: 'nonzero' | 'evenodd';
}
/** Where a run of lettering starts, in page points, and its size in mm (of the em square). */
export interface PdfLettering {
  readonly order: number;
  readonly layer: string;
  readonly at: Vec2;
  /** Reading direction on the page, radians. */
  readonly angle: number;
  readonly size: number;
  /** The font by its name among the page's resources, and the codes shown. */
  readonly font: string;
  readonly codes: string;
  readonly colour: readonly number[];
}

/** A page's content while it is run: what was painted, and the state it is in. */
export interface Run {
  readonly strokes: PdfStroke[];
  readonly fills: PdfFill[];
  readonly letterings: PdfLettering[];
  readonly saved: GraphicsState[];
  /** The layer of each marked stretch that is open; undefined for one that is none. */
  readonly marks: (string | undefined)[];
  readonly layerOf: (property: string) => string;
  readonly states: PdfDict;
  /** Byte it has been read to, for what is said of a fault. */
  readonly position: () => number;
  order: number;
  state: GraphicsState;
  subpaths: { start: Vec2; segments: PathSegment[]; closed: boolean }[];
  pendingClip: boolean;
  textMatrix: Matrix;
  inText: boolean;
  operands: PdfValue[];
}

/** A run that has not begun. */
export const beginRun = ({
  layerOf,
  states,
  position,
}: Pick<Run, 'layerOf' | 'states' | 'position'>): Run => ({
  strokes: [],
  fills: [],
  letterings: [],
  saved: [],
  marks: [],
  layerOf,
  states,
  position,
  order: 0,
  state: freshState,
  subpaths: [],
  pendingClip: false,
  textMatrix: identity,
  inText: false,
  operands: [],
});

/** Tells what is wrong with the content, and where. */
export const failAt = ({ position }: Run, what: string): never => {
  throw new Error(say`page content, before byte ${position()}: ${what}`);
};

const numbers = (run: Run, count: number): number[] =>
  run.operands.length === count
    ? run.operands.map(numberOf)
    : failAt(run, say`${count} operands wanted, ${run.operands.length} given`);
const matrix = (run: Run): Matrix => numbers(run, 6) as unknown as Matrix;
const change = (run: Run, by: Partial<GraphicsState>): void => {
  run.state = { ...run.state, ...by };
};
const currentLayer = (run: Run): string =>
  run.marks.findLast((mark) => mark !== undefined) ?? failAt(run, say`something drawn on no layer`);
const nextOrder = (run: Run): number => {
  run.order += 1;
  if (run.order > limits.marksPerPage) throw new BeyondLimit(say`a page with more marks than any print`);
  return run.order;
};

type Operators = Readonly<Record<string, (run: Run) => void>>;

/** A graphics state by name may set opacity alone, and that to full: anything else would change what is measured here. */
const checkState = (value: PdfValue | undefined): void => {
  for (const [key, v] of dictOf(value))
    if (key !== 'Type' && !((key === 'CA' || key === 'ca') && v === 1))
      throw new Error(say`page content: gs sets ${key}`);
};

const one = (run: Run): void => void numbers(run, 1);
const setStroke = (run: Run): void => change(run, { strokeColour: run.operands.map(numberOf) });
const setFill = (run: Run): void => change(run, { fillColour: run.operands.map(numberOf) });

/** ISO 32000-1 §8.4: the graphics state, and §8.6: colors. */
const stateOperators: Operators = {
  q: (run) =>
    void (
      run.saved.push(run.state) > limits.nesting && failAt(run, say`more q in each other than in any print`)
    ),
  Q: (run) => void (run.state = run.saved.pop() ?? failAt(run, say`Q without q`)),
  cm: (run) => change(run, { ctm: chain(matrix(run), run.state.ctm) }),
  w: (run) => change(run, { width: present(numbers(run, 1)[0]) }),
  d: (run) => change(run, { dash: arrayOf(run.operands[0]).map(numberOf) }),
  J: one,
  j: one,
  M: one,
  i: one,
  ri: (run) => void nameOf(run.operands[0]),
  gs: (run) => checkState(run.states.get(nameOf(run.operands[0]))),
  CS: (run) => change(run, { strokeColour: [0] }),
  cs: (run) => change(run, { fillColour: [0] }),
  SC: setStroke,
  SCN: setStroke,
  G: setStroke,
  RG: setStroke,
  K: setStroke,
  sc: setFill,
  scn: setFill,
  g: setFill,
  rg: setFill,
  k: setFill,
};

const at = ({ state }: Run, x: number | undefined, y: number | undefined): Vec2 =>
  apply(state.ctm, present(x), present(y));
const currentPoint = (run: Run): Vec2 => {
  const last = run.subpaths.at(-1) ?? failAt(run, say`no current point`);
  return last.segments.at(-1)?.to ?? last.start;
};
const begin = ({ subpaths }: Run, start: Vec2): void =>
  void subpaths.push({ start, segments: [], closed: false });
const extend = (run: Run, segment: PathSegment): void => {
  const last = run.subpaths.at(-1) ?? failAt(run, say`no current point`);
  // After a closing the next line starts anew where the closed one began.
  if (last.closed) begin(run, last.start);
  present(run.subpaths.at(-1)).segments.push(segment);
};
const close = (run: Run): void => {
  const last = run.subpaths.at(-1) ?? failAt(run, say`nothing to close`);
  if (last.closed) return;
  const end = currentPoint(run);
  if (end.x !== last.start.x || end.y !== last.start.y) last.segments.push({ kind: 'line', to: last.start });
  last.closed = true;
};

/** ISO 32000-1 §8.5.2: paths are made. */
const pathOperators: Operators = {
  m: (run) => {
    const [x, y] = numbers(run, 2);
    begin(run, at(run, x, y));
  },
  l: (run) => {
    const [x, y] = numbers(run, 2);
    extend(run, { kind: 'line', to: at(run, x, y) });
  },
  c: (run) => {
    const [a, b, c, d, e, f] = numbers(run, 6);
    extend(run, { kind: 'curve', c1: at(run, a, b), c2: at(run, c, d), to: at(run, e, f) });
  },
  v: (run) => {
    const [c, d, e, f] = numbers(run, 4);
    extend(run, { kind: 'curve', c1: currentPoint(run), c2: at(run, c, d), to: at(run, e, f) });
  },
  y: (run) => {
    const [a, b, e, f] = numbers(run, 4);
    extend(run, { kind: 'curve', c1: at(run, a, b), c2: at(run, e, f), to: at(run, e, f) });
  },
  re: (run) => {
    const [x, y, w, h] = numbers(run, 4) as [number, number, number, number];
    begin(run, at(run, x, y));
    for (const to of [at(run, x + w, y), at(run, x + w, y + h), at(run, x, y + h)])
      extend(run, { kind: 'line', to });
    close(run);
  },
  h: close,
};

const paint = (run: Run, isStroked: boolean, rule?: PdfFill['rule']): void => {
  const path: Subpath[] = run.subpaths.filter(({ segments }) => segments.length > 0);
  const { clips, fillColour, strokeColour, ctm, width, dash } = run.state;
  if (path.length > 0 && rule)
    run.fills.push({
      order: nextOrder(run),
      layer: currentLayer(run),
      path,
      colour: fillColour,
      clips,
      rule,
    });
  if (path.length > 0 && isStroked) {
    const scale = growth(ctm) * millimetresPerPoint;
    run.strokes.push({
      order: nextOrder(run),
      layer: currentLayer(run),
      path,
      colour: strokeColour,
      clips,
      width: width * scale,
      dash: dash.map((length) => length * scale),
    });
  }
  if (run.pendingClip) change(run, { clips: [...clips, path] });
  run.pendingClip = false;
  run.subpaths = [];
};

const painting =
  (isStroked: boolean, rule?: PdfFill['rule'], isClosed = false) =>
  (run: Run): void => {
    if (isClosed) close(run);
    paint(run, isStroked, rule);
  };

/** ISO 32000-1 §8.5.3 and §8.5.4: paths are painted, or cut off what comes after. */
const paintOperators: Operators = {
  S: painting(true),
  s: painting(true, undefined, true),
  f: painting(false, 'nonzero'),
  F: painting(false, 'nonzero'),
  'f*': painting(false, 'evenodd'),
  B: painting(true, 'nonzero'),
  'B*': painting(true, 'evenodd'),
  b: painting(true, 'nonzero', true),
  'b*': painting(true, 'evenodd', true),
  n: painting(false),
  W: (run) => void (run.pendingClip = true),
};

const show = (run: Run): void => {
  if (!run.inText) failAt(run, say`text shown outside BT … ET`);
  const { ctm, textSize, font, fillColour } = run.state;
  const full = chain(run.textMatrix, ctm);
  const [codes] = run.operands;
  run.letterings.push({
    order: nextOrder(run),
    layer: currentLayer(run),
    at: apply(full, 0, 0),
    angle: Math.atan2(full[1], full[0]),
    size: textSize * growth(full) * millimetresPerPoint,
    font,
    codes: isText(codes) ? codes.raw : '',
    colour: fillColour,
  });
};

/** ISO 32000-1 §9: text, and §14.6: marked stretches, which put what they hold on layers. */
const textOperators: Operators = {
  BT: (run) => void ([run.inText, run.textMatrix] = [true, identity]),
  ET: (run) => void (run.inText = false),
  Tf: (run) => change(run, { font: nameOf(run.operands[0]), textSize: numberOf(run.operands[1]) }),
  Tm: (run) => void (run.textMatrix = matrix(run)),
  Td: (run) => {
    const [x, y] = numbers(run, 2) as [number, number];
    run.textMatrix = chain([1, 0, 0, 1, x, y], run.textMatrix);
  },
  Tj: show,
  TJ: show,
  Tc: one,
  Tw: one,
  Tz: one,
  TL: one,
  Tr: one,
  Ts: one,
  BMC: ({ marks }) => void marks.push(undefined),
  BDC: ({ marks, operands, layerOf }) =>
    void marks.push(nameOf(operands[0]) === 'OC' ? layerOf(nameOf(operands[1])) : undefined),
  EMC: (run) => (run.marks.length === 0 ? failAt(run, say`EMC without BDC`) : void run.marks.pop()),
};

/** Every operator that is understood, by its name. */
export const operators: ReadonlyMap<string, (run: Run) => void> = new Map(
  [stateOperators, pathOperators, paintOperators, textOperators].flatMap((some) => Object.entries(some)),
);

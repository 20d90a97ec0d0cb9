import { present } from './present.ts';
import { BeyondLimit, limits } from './limits.ts';
import { readObjects } from './pdf-objects.ts';
import {
  arrayOf,
  dictOf,
  isArray,
  isName,
  isOperator,
  isText,
  nameOf,
  numberOf,
  type PdfDict,
  type PdfValue,
} from './pdf-values.ts';
import type { Path, PathSegment, Subpath } from './paths.ts';
import type { Vec2 } from './space.ts';

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
export interface PageContent {
  readonly strokes: readonly PdfStroke[];
  readonly fills: readonly PdfFill[];
  readonly letterings: readonly PdfLettering[];
  /** Every operator that was used. */
  readonly operators: ReadonlySet<string>;
}

/** An operand as the program writes it. */
const writeOperand = (value: PdfValue): string => {
  if (isName(value)) return `/${value.name}`;
  if (isText(value)) return `<${Buffer.from(value.raw, 'latin1').toString('hex')}>`;
  if (isArray(value)) return `[${value.map(writeOperand).join(' ')}]`;
  return typeof value === 'number' ? String(value) : 'other';
};

/**
 * A page's content as the program writes it, one operator with its operands each: what was saved again by another
 * program, with other spaces and line ends, reads the same.
 */
export const listOperators = (content: string): readonly string[] => {
  const lexer = readObjects(content, 0, false);
  const listed: string[] = [];
  let operands: string[] = [];
  for (let token = lexer.next(); token !== undefined; token = lexer.next()) {
    if (!isOperator(token)) {
      operands.push(writeOperand(token));
      continue;
    }
    listed.push([...operands, token.name].join(' '));
    operands = [];
  }
  return [...listed, ...operands];
};

type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];
interface State {
  readonly ctm: Matrix;
  readonly width: number;
  readonly dash: readonly number[];
  readonly strokeColour: readonly number[];
  readonly fillColour: readonly number[];
  readonly clips: readonly Path[];
  readonly textSize: number;
  readonly font: string;
}
const identity: Matrix = [1, 0, 0, 1, 0, 0];
const freshState: State = {
  ctm: identity,
  width: 1,
  dash: [],
  strokeColour: [0],
  fillColour: [0],
  clips: [],
  textSize: 0,
  font: '',
};

/** `inner` applied first, then `outer` (ISO 32000-1 §8.3.4). */
const chain = (i: Matrix, o: Matrix): Matrix => [
  i[0] * o[0] + i[1] * o[2],
  i[0] * o[1] + i[1] * o[3],
  i[2] * o[0] + i[3] * o[2],
  i[2] * o[1] + i[3] * o[3],
  i[4] * o[0] + i[5] * o[2] + o[4],
  i[4] * o[1] + i[5] * o[3] + o[5],
];
const apply = (m: Matrix, x: number, y: number): Vec2 => ({
  x: m[0] * x + m[2] * y + m[4],
  y: m[1] * x + m[3] * y + m[5],
});
/** A graphics state by name may set opacity alone, and that to full: anything else would change what is measured here. */
const checkState = (value: PdfValue | undefined): void => {
  for (const [key, v] of dictOf(value))
    if (key !== 'Type' && !((key === 'CA' || key === 'ca') && v === 1))
      throw new Error(`page content: gs sets ${key}`);
};
const growth = (m: Matrix): number => Math.sqrt(Math.abs(m[0] * m[3] - m[1] * m[2]));

/**
 * Runs a page's content stream (ISO 32000-1 §8, §9) and collects what it paints. `layerOf` gives the name of the optional
 * content group behind a property name. Throws on an operator it does not know, a wrong operand, unbalanced q/Q or
 * BDC/EMC, and anything painted outside a layer.
 */
export function readContent(
  content: string,
  layerOf: (property: string) => string,
  states: PdfDict,
): PageContent {
  const lexer = readObjects(content, 0, false);
  const strokes: PdfStroke[] = [];
  const fills: PdfFill[] = [];
  const letterings: PdfLettering[] = [];
  const used = new Set<string>();
  let order = 0;
  const saved: State[] = [];
  const marks: (string | undefined)[] = [];
  let state = freshState;
  let subpaths: { start: Vec2; segments: PathSegment[]; closed: boolean }[] = [];
  let pendingClip = false;
  let textMatrix = identity;
  let inText = false;
  let operands: PdfValue[] = [];

  const fail = (what: string): never => {
    throw new Error(`page content: ${what} before byte ${lexer.position}`);
  };
  const numbers = (count: number): number[] =>
    operands.length === count
      ? operands.map(numberOf)
      : fail(`${count} operands wanted, ${operands.length} given`);
  const currentLayer = (): string =>
    marks.findLast((m) => m !== undefined) ?? fail('painting outside any layer');
  const current = (): Vec2 => {
    const last = subpaths.at(-1) ?? fail('no current point');
    return last.segments.at(-1)?.to ?? last.start;
  };
  const at = (x: number | undefined, y: number | undefined): Vec2 => apply(state.ctm, present(x), present(y));
  const begin = (start: Vec2) => void subpaths.push({ start, segments: [], closed: false });
  const extend = (segment: PathSegment) => {
    const last = subpaths.at(-1) ?? fail('no current point');
    // After a closing the next line starts anew where the closed one began.
    if (last.closed) begin(last.start);
    present(subpaths.at(-1)).segments.push(segment);
  };
  const close = () => {
    const last = subpaths.at(-1) ?? fail('nothing to close');
    if (last.closed) return;
    const end = current();
    if (end.x !== last.start.x || end.y !== last.start.y)
      last.segments.push({ kind: 'line', to: last.start });
    last.closed = true;
  };
  const nextOrder = (): number => {
    order += 1;
    if (order > limits.marksPerPage) throw new BeyondLimit('a page with more marks than any print');
    return order;
  };
  const paint = (stroke: boolean, fill?: PdfFill['rule']) => {
    const path: Subpath[] = subpaths.filter((s) => s.segments.length > 0);
    const { clips } = state;
    if (path.length > 0 && fill)
      fills.push({
        order: nextOrder(),
        layer: currentLayer(),
        path,
        colour: state.fillColour,
        clips,
        rule: fill,
      });
    if (path.length > 0 && stroke) {
      const scale = growth(state.ctm) * millimetresPerPoint;
      const [width, dash] = [state.width * scale, state.dash.map((d) => d * scale)];
      strokes.push({
        order: nextOrder(),
        layer: currentLayer(),
        path,
        colour: state.strokeColour,
        clips,
        width,
        dash,
      });
    }
    if (pendingClip) state = { ...state, clips: [...clips, path] };
    pendingClip = false;
    subpaths = [];
  };
  const colour = () => operands.map(numberOf);
  const show = () => {
    if (!inText) fail('text shown outside BT … ET');
    const full = chain(textMatrix, state.ctm);
    const size = state.textSize * growth(full) * millimetresPerPoint;
    const [codes] = operands;
    letterings.push({
      order: nextOrder(),
      layer: currentLayer(),
      at: apply(full, 0, 0),
      angle: Math.atan2(full[1], full[0]),
      size,
      font: state.font,
      codes: isText(codes) ? codes.raw : '',
      colour: state.fillColour,
    });
  };

  const plain = {
    q: () => void (saved.push(state) > limits.nesting && fail('more q in each other than in any print')),
    Q: () => void (state = saved.pop() ?? fail('Q without q')),
    cm: () => void (state = { ...state, ctm: chain(numbers(6) as unknown as Matrix, state.ctm) }),
    w: () => void (state = { ...state, width: present(numbers(1)[0]) }),
    d: () => void (state = { ...state, dash: arrayOf(operands[0]).map(numberOf) }),
    J: () => void numbers(1),
    j: () => void numbers(1),
    M: () => void numbers(1),
    i: () => void numbers(1),
    ri: () => void nameOf(operands[0]),
    gs: () => checkState(states.get(nameOf(operands[0]))),
    m: () => begin(at(...(numbers(2) as [number, number]))),
    l: () => extend({ kind: 'line', to: at(...(numbers(2) as [number, number])) }),
    c: () => {
      const [a, b, c, d, e, f] = numbers(6);
      extend({ kind: 'curve', c1: at(a, b), c2: at(c, d), to: at(e, f) });
    },
    v: () => {
      const [c, d, e, f] = numbers(4);
      extend({ kind: 'curve', c1: current(), c2: at(c, d), to: at(e, f) });
    },
    y: () => {
      const [a, b, e, f] = numbers(4);
      extend({ kind: 'curve', c1: at(a, b), c2: at(e, f), to: at(e, f) });
    },
    re: () => {
      const [x, y, w, h] = numbers(4) as [number, number, number, number];
      begin(at(x, y));
      for (const to of [at(x + w, y), at(x + w, y + h), at(x, y + h)]) extend({ kind: 'line', to });
      close();
    },
    h: close,
    S: () => paint(true),
    s: () => (close(), paint(true)),
    f: () => paint(false, 'nonzero'),
    F: () => paint(false, 'nonzero'),
    'f*': () => paint(false, 'evenodd'),
    B: () => paint(true, 'nonzero'),
    'B*': () => paint(true, 'evenodd'),
    b: () => (close(), paint(true, 'nonzero')),
    'b*': () => (close(), paint(true, 'evenodd')),
    n: () => paint(false),
    W: () => void (pendingClip = true),
    CS: () => void (state = { ...state, strokeColour: [0] }),
    cs: () => void (state = { ...state, fillColour: [0] }),
    BT: () => void ([inText, textMatrix] = [true, identity]),
    ET: () => void (inText = false),
    Tf: () => void (state = { ...state, font: nameOf(operands[0]), textSize: numberOf(operands[1]) }),
    Tm: () => void (textMatrix = numbers(6) as unknown as Matrix),
    Td: () => void (textMatrix = chain([1, 0, 0, 1, ...(numbers(2) as [number, number])], textMatrix)),
    Tj: show,
    TJ: show,
    BMC: () => void marks.push(undefined),
    BDC: () => void marks.push(nameOf(operands[0]) === 'OC' ? layerOf(nameOf(operands[1])) : undefined),
    EMC: () => (marks.length === 0 ? fail('EMC without BDC') : void marks.pop()),
  };
  const operators = new Map<string, () => void>(Object.entries(plain));
  for (const name of ['SC', 'SCN', 'G', 'RG', 'K'])
    operators.set(name, () => void (state = { ...state, strokeColour: colour() }));
  for (const name of ['sc', 'scn', 'g', 'rg', 'k'])
    operators.set(name, () => void (state = { ...state, fillColour: colour() }));
  for (const name of ['Tc', 'Tw', 'Tz', 'TL', 'Tr', 'Ts']) operators.set(name, () => void numbers(1));

  for (let token = lexer.next(); token !== undefined; token = lexer.next()) {
    if (!isOperator(token)) {
      if (operands.push(token) > 32) fail('an operator with more operands than any has');
      continue;
    }
    const run = operators.get(token.name) ?? fail(`unknown operator ${token.name.slice(0, 20)}`);
    run();
    used.add(token.name);
    operands = [];
  }
  if (saved.length > 0 || marks.length > 0) fail('q or BDC left open');
  return { strokes, fills, letterings, operators: used };
}

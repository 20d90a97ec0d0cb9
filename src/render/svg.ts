import { registerWindow, SVG, type G, type Svg } from '@svgdotjs/svg.js';
import { createSVGWindow } from 'svgdom';
import { checkAreSheets } from '../drawing/check-sheets.ts';
import { fitDashes } from '../drawing/dash.ts';
import { fontSize } from '../drawing/lettering.ts';
import {
  type Box,
  type Fill,
  type Lettering,
  type Mark,
  type Path,
  type Sheet,
  type Stroke,
} from '../drawing/model.ts';
import { growBox, unionBox } from '../drawing/paths.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { checkIsText } from '../words/wrong-type.ts';
import { layerOrder } from './picture.ts';
import { spreadSheets } from './side-by-side.ts';

const BORDER = 5;

/** Millimetres with six decimals, as short as they go. */
const write = (value: number): string => {
  const text = Number(value.toFixed(6)).toString();
  return text === '-0' ? '0' : text;
};

/** SVG's y runs down. */
const at = ({ x, y }: Vec2): string => `${write(x)} ${write(-y)}`;

const pathData = ({ start, segments, closed }: Path): string =>
  [
    `M${at(start)}`,
    ...segments.map((segment) =>
      segment.kind === 'line'
        ? `L${at(segment.to)}`
        : `C${at(segment.c1)} ${at(segment.c2)} ${at(segment.to)}`,
    ),
    ...(closed ? ['Z'] : []),
  ].join('');

const drawStroke = (group: G, { path, width, line }: Stroke): void => {
  const dashes = fitDashes(line, width, path);
  group.element('path').attr({
    d: pathData(path),
    'stroke-width': write(width),
    ...(dashes.length > 0 ? { 'stroke-dasharray': dashes.map(write).join(' ') } : {}),
  });
};

const drawFill = (group: G, { path, ink }: Fill): void => {
  group.element('path').attr({ d: pathData(path), fill: ink, stroke: 'none' });
};

const anchors = { left: 'start', centre: 'middle', right: 'end' } as const;

const drawLettering = (group: G, mark: Lettering): void => {
  const { text, height, align, valign, angle, bold } = mark;
  const drop = valign === 'middle' ? height / 2 : valign === 'top' ? height : 0;
  const foot = { x: mark.at.x + drop * Math.sin(angle), y: mark.at.y - drop * Math.cos(angle) };
  const element = group.element('text');
  element.words(text).attr({
    x: write(foot.x),
    y: write(-foot.y),
    'font-size': write(fontSize(height, bold)),
    'text-anchor': anchors[align],
    fill: 'black',
    stroke: 'none',
    ...(bold ? { 'font-weight': 'bold' } : {}),
    ...(angle === 0 ? {} : { transform: `rotate(${write((-angle * 180) / Math.PI)} ${at(foot)})` }),
  });
};

const drawMark = (group: G, mark: Mark): void => {
  switch (mark.kind) {
    case 'stroke':
      return drawStroke(group, mark);
    case 'fill':
      return drawFill(group, mark);
    case 'text':
      return drawLettering(group, mark);
  }
};

/**
 * Sheets as one SVG in real millimetres: the view box is in mm, its origin the first sheet's, y down as SVG has it.
 * Every layer is a group of that name (`id`; with several sheets `data-layer`, in a group of the sheet's name).
 */
export const renderSvg = (sheets: readonly Sheet[], title: string): string => {
  checkAreSheets(sheets);
  checkIsText(title, 'title', 'Bracket');
  const window = createSVGWindow();
  registerWindow(window, window.document);
  const root = SVG(window.document.documentElement) as Svg;
  const spreads = spreadSheets(sheets);
  const view: Box = growBox(unionBox(spreads.map(({ bounds }) => bounds)), BORDER);
  const [width, height] = [view.maxX - view.minX, view.maxY - view.minY];
  root.clear();
  root.attr({
    width: `${write(width)}mm`,
    height: `${write(height)}mm`,
    viewBox: [view.minX, -view.maxY, width, height].map(write).join(' '),
    fill: 'none',
    stroke: 'black',
    'stroke-linejoin': 'round',
    'font-family': "'DejaVu Sans Condensed', 'DejaVu Sans', sans-serif",
  });
  root.element('title').words(title);
  for (const { name, origin, marks } of spreads) {
    const sheet = root
      .group()
      .attr({ id: name.replace(/ /g, '-'), 'data-sheet': name, 'data-origin': at(origin) });
    for (const role of layerOrder) {
      const own = marks.filter((mark) => mark.role === role);
      if (own.length === 0) continue;
      const layer = sheet.group().attr({ 'data-layer': role, ...(spreads.length === 1 ? { id: role } : {}) });
      own.forEach((mark) => drawMark(layer, mark));
    }
  }
  return `<?xml version="1.0" encoding="UTF-8"?>\n${root.svg()}\n`;
};

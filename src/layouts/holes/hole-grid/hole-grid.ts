import { markBounds } from '../../../drawing/extent.ts';
import type { Box, Fact, Mark, Table } from '../../../drawing/model.ts';
import { boxPath, FINE, ruleLine, unionBox } from '../../../drawing/paths.ts';
import { defineLayout } from '../../../fields/layout.ts';
import type { Grid, Hole } from '../../../geometry/hole-pattern.ts';
import { itemAt, lastOf } from '../../../lists.ts';
import type { Vec2 } from '../../../geometry/vector.ts';
import { CHECK_PRINT } from '../../../sheets/band-words.ts';
import { faceWords } from '../../../sheets/face-words.ts';
import { centreLines, drawOutline, linearDimension } from '../../../sheets/flat-marks.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import {
  drawHoles,
  fitHoles,
  slotSteps,
  type HoleDistance,
  holeOutline,
  tapeStart,
  tapeSteps,
  tapeTable,
} from '../../../sheets/holes.ts';
import {
  apart,
  crossAt,
  crosses,
  levelAt,
  ORIGIN,
  shown,
  taken,
  uprightAt,
} from '../../../sheets/measured.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { gridFields } from './grid-fields.ts';
import { gridPicture } from './grid-picture.ts';
import { countOf, lengthOf } from '../../../units/quantity.ts';
import { worded } from '../../../drawing/worded.ts';
import { checkField, fieldHoles, type HoleField, readField } from './hole-field.ts';

/** Holes in rows and columns: a strip, a rectangle, a staggered field; round or slotted. */
export const holeGrid = defineLayout({
  id: 'hole-grid',
  summary: 'holes in rows and columns or in a strip, round or slotted, in line or staggered',
  family: 'holes and spacing',
  words: ['drill', 'slots', 'staggered', 'pattern', 'rows', 'baffle', 'perforated'],
  fields: gridFields,
  examples: [
    'hole-grid --columns 4 --column-pitch 75mm --rows 2 --row-pitch 100mm --hole 18mm --width 300mm --height 180mm',
    'hole-grid --columns 6 --column-pitch 3in --hole 11/16in',
    'hole-grid --columns 3 --column-pitch 60mm --rows 3 --row-pitch 52mm --stagger 30mm --hole 14mm --slot 24mm',
  ],
  draw: (asked, setting) => {
    const field = readField(asked, setting);
    checkField(field, setting);
    return [drawSheet(field, tapeStart(asked.tapeStart, setting), setting)];
  },
});

const drawSheet = (field: HoleField, start: number, setting: Setting) => {
  const { grid, plate } = field;
  const both = (length: number): string => writeBoth(length, setting);
  const holes = fieldHoles(field);
  const points = holes.map((hole) => hole.at);
  const box = unionBox(points.map(({ x, y }) => ({ minX: x, maxX: x, minY: y, maxY: y })));
  const up = box.maxY - box.minY;
  const first = itemAt(points, 0);
  const [left, low] = plate
    ? [plate.centre.x - plate.width / 2, plate.centre.y - plate.height / 2]
    : [box.minX, box.minY];
  const diagonal = Math.hypot((grid.columns - 1) * grid.columnPitch, up);
  const square = grid.rows > 1 && grid.columns > 1 && grid.stagger === 0;
  return plateSheet({
    name: 'hole grid',
    heading: grid.rows === 1 ? say`Hole strip` : say`Hole grid`,
    subject: describe(field, setting),
    marks: drawMarks(field, holes, setting),
    fit: fitHoles(holes),
    steps: [
      CHECK_PRINT(),
      plate
        ? say`Lay the sheet to the plate’s straightest edge, TOP up, and square it from there; tape it down.`
        : say`Strike two center lines square to each other. Lay the sheet on them, TOP up, and tape it down.`,
      say`Prick and punch each hole’s center through the cross. Lift the sheet.`,
      ...tapeSteps(start, setting),
      ...(square
        ? [
            say`Tape both diagonals from corner hole to corner hole: equal, ${both(diagonal)}, when it is square.`,
          ]
        : []),
      ...slotSteps(field.slot !== undefined),
    ],
    facts: [
      [
        say`Holes`,
        worded(
          (value) =>
            say`${value(countOf(holes.length))}: ${value(countOf(grid.columns))} in a row, ${value(countOf(grid.rows))} ${grid.rows === 1 ? say`row` : say`rows`}`,
        ),
      ],
      ...(grid.columns > 1
        ? ([
            [
              say`Along a row, first to last`,
              shown(
                lengthOf((grid.columns - 1) * grid.columnPitch),
                crosses(itemAt(points, 0), itemAt(points, grid.columns - 1)),
              ),
            ],
          ] as const)
        : []),
      ...(grid.rows > 1
        ? ([
            [
              say`First row to last row`,
              shown(
                lengthOf(up),
                apart(onCross(points[0] as Vec2), onCross(points.at(-grid.columns) as Vec2), 'y'),
              ),
            ],
          ] as const)
        : []),
      ...(square
        ? ([
            [
              say`Both diagonals, corner to corner`,
              shown(lengthOf(diagonal), crosses(itemAt(points, 0), lastOf(points))),
            ],
          ] as const)
        : []),
      ...(plate ? ([...edgeFacts(first, left, low)] as const) : []),
    ],
    tables: [
      ...rowTables(grid, points, start, setting),
      ...(holes.length <= 60 ? [positionTable(points, box, plate)] : []),
    ],
    pictures: [gridPicture(holes, plate, square)],
  });
};

/** How far the first hole lies from the plate's edges. */
const edgeFacts = ({ x, y }: Vec2, left: number, low: number): readonly Fact[] => [
  [
    say`Left edge to first center`,
    shown(lengthOf(x - left), apart(levelAt('cut', left, y), crossAt('punch', x, y), 'x')),
  ],
  [
    say`Lower edge to first center`,
    shown(lengthOf(y - low), apart(uprightAt('cut', x, low), crossAt('punch', x, y), 'y')),
  ],
];

const describe = ({ grid, hole, slot, plate }: HoleField, setting: Setting): readonly string[] => {
  const both = (length: number): string => writeBoth(length, setting);
  const many = grid.columns * grid.rows > 1 ? 's' : '';
  const what = slot
    ? say`slot${many} ${both(hole)} wide, ${both(slot.length)} long`
    : say`hole${many} ⌀ ${both(hole)}`;
  return [
    `${grid.columns * grid.rows} ${what}`,
    [
      grid.columns > 1 ? say`${both(grid.columnPitch)} along the rows` : '',
      grid.rows > 1 ? say`${both(grid.rowPitch)} from row to row` : '',
      grid.stagger !== 0 && grid.rows > 1 ? say`every second row moved ${both(grid.stagger)}` : '',
    ]
      .filter((text) => text !== '')
      .join(', '),
    plate ? say`Plate ${both(plate.width)} wide, ${both(plate.height)} high` : '',
  ].filter((text) => text !== '');
};

const onCross = ({ x, y }: Vec2) => crossAt('punch', x, y);

/** Along a row and along a column: one tape laid once, every hole read off it. */
const rowTables = (grid: Grid, points: readonly Vec2[], start: number, setting: Setting) => {
  /** `stride` is how many holes further the next one of the list is numbered. */
  const list = (count: number, pitch: number, stride: number): HoleDistance[] =>
    Array.from({ length: count - 1 }, (_, i) => ({
      label: `${i + 2}`,
      apart: (i + 1) * pitch,
      measured: crosses(points[0] as Vec2, points[(i + 1) * stride] as Vec2),
    }));
  return [
    ...(grid.columns > 1
      ? [
          tapeTable(
            say`Along a row from its first hole`,
            say`To hole`,
            list(grid.columns, grid.columnPitch, 1),
            start,
            setting,
          ),
        ]
      : []),
    ...(grid.rows > 1 && grid.stagger === 0
      ? [
          tapeTable(
            say`From the first row up`,
            say`To row`,
            list(grid.rows, grid.rowPitch, grid.columns),
            start,
            setting,
          ),
        ]
      : []),
  ];
};

const positionTable = (points: readonly Vec2[], box: Box, plate: HoleField['plate']): Table => {
  const from = plate
    ? { x: plate.centre.x - plate.width / 2, y: plate.centre.y - plate.height / 2 }
    : { x: box.minX, y: box.minY };
  return {
    title: plate
      ? say`Centers from the plate’s left and lower edge`
      : say`Centers from the lower left hole’s lines`,
    header: [say`Hole`, say`right`, say`up`],
    rows: points.map(({ x, y }, i) => [
      `${i + 1}`,
      shown(lengthOf(x - from.x), taken(apart(ORIGIN, crossAt('punch', x, y), 'x'), 1, -from.x)),
      shown(lengthOf(y - from.y), taken(apart(ORIGIN, crossAt('punch', x, y), 'y'), 1, -from.y)),
    ]),
  };
};

const drawMarks = ({ grid, plate }: HoleField, holes: readonly Hole[], setting: Setting): Mark[] => {
  const field = unionBox(holes.map((hole) => markBounds(holeOutline(hole))));
  const edge: Box = plate
    ? {
        minX: plate.centre.x - plate.width / 2,
        maxX: plate.centre.x + plate.width / 2,
        minY: plate.centre.y - plate.height / 2,
        maxY: plate.centre.y + plate.height / 2,
      }
    : field;
  const [reachX, reachY] = [
    Math.max(Math.abs(edge.minX), Math.abs(edge.maxX)) + 5,
    Math.max(Math.abs(edge.minY), Math.abs(edge.maxY)) + 5,
  ];
  const marks: Mark[] = [
    ...centreLines({ x: 0, y: 0 }, reachX, reachY),
    ...(plate ? [drawOutline(boxPath(edge))] : []),
  ];
  const rows = [...new Set(holes.map(({ at }) => at.y))].filter((y) => Math.abs(y) > 1e-6);
  for (const y of rows)
    marks.push(ruleLine('centre', { x: field.minX - 3, y }, { x: field.maxX + 3, y }, FINE, 'long-dash-dot'));
  const first = holes[0];
  const second = holes[1];
  const above = holes[grid.columns];
  if (first && second && grid.columns > 1)
    marks.push(
      ...linearDimension(
        { x: first.at.x, y: edge.minY },
        { x: second.at.x, y: edge.minY },
        -8,
        writeBoth(grid.columnPitch, setting),
        2.5,
      ),
    );
  if (first && above && grid.rows > 1)
    marks.push(
      ...linearDimension(
        { x: edge.minX, y: first.at.y },
        { x: edge.minX, y: above.at.y },
        8,
        writeBoth(grid.rowPitch, setting),
        2.5,
      ),
    );
  const axes: Box[] = [
    { minX: -reachX, maxX: reachX, minY: -0.3, maxY: 0.3 },
    { minX: -0.3, maxX: 0.3, minY: -reachY, maxY: reachY },
    ...rows.map((y) => ({ minX: -reachX, maxX: reachX, minY: y - 0.2, maxY: y + 0.2 })),
  ];
  marks.push(...drawHoles(holes, axes));
  const isOn = ({ x, y }: Vec2): boolean => x > edge.minX && x < edge.maxX && y > edge.minY && y < edge.maxY;
  return [...marks, ...faceWords(marks, { box: edge, isOn, holes, center: { x: 0, y: 0 } })];
};

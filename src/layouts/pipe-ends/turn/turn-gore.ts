import type { FitLine } from '../../../drawing/fit-up.ts';
import type { Sheet } from '../../../drawing/model.ts';
import { developGore, goreEnds, type Gore } from '../../../geometry/turn.ts';
import { formatAngle } from '../../../units/angle.ts';
import { drawBand, pipeOutline, seamPosition } from '../../../sheets/cut-band.ts';
import { endPicture } from '../../../sheets/end-picture.ts';
import { fitBand } from '../../../sheets/fit-record.ts';
import type { Setting } from '../../../units/setting.ts';
import { adviceTable, describeTurn, goreTable, turnCautions, type TurnRequest } from './turn-parts.ts';
import { gorePicture, turnPicture } from './turn-picture.ts';
import { girthFact, laySteps, wrapSteps } from '../../../sheets/band-paper.ts';
import { stationNumber } from '../../../stock/station.ts';
import { writeBoth } from '../../../units/writing.ts';

/** Names of a gore's quarter lines 0, 90, 180 and 270. */
export const GORE_WORDS = ['THROAT', 'SIDE', 'HEEL', 'SIDE'] as const;

/** What joins a gore above and below, named over the heel. */
const joins = ({ gores }: TurnRequest, { number }: Gore) => ({
  station: Math.PI,
  below: number > 1 ? `GORE ${number - 1}` : 'SQUARE END',
  above: number < gores.length ? `GORE ${number + 1}` : 'SQUARE END',
});

/** What the upper and the lower cut line of a gore must touch. */
export const goreLines = (
  { contact, gap }: Pick<TurnRequest, 'contact' | 'gap'>,
  gore: Gore,
): readonly [upper: FitLine, lower: FitLine] => {
  const { lower, upper } = goreEnds(gore);
  return [
    {
      which: 'upper',
      contact,
      gap: gore.upper > 0 ? gap / 2 : 0,
      solids: [{ kind: 'plane', ...upper }],
    },
    {
      which: 'lower',
      contact,
      gap: gore.lower > 0 ? -gap / 2 : 0,
      solids: [{ kind: 'plane', ...lower }],
    },
  ];
};

/** The sheet of one gore: y = 0 at mid-length of its centre line, station 0 at the throat. */
export const goreSheet = (request: TurnRequest, gore: Gore, setting: Setting): Sheet => {
  const { pipe, gores, stagger, contact, gap, angle, shape } = request;
  const wrap = { ...request.wrap, seam: request.wrap.seam + (gore.number - 1) * stagger };
  const lines = developGore(pipeOutline(pipe), gore, contact, gap / 2, seamPosition(pipe, wrap, setting));
  const band = drawBand(pipe, { ...lines, beyond: joins(request, gore) }, wrap, GORE_WORDS, setting);
  const alone = gore.number === 1 && wrap.madeFrom === 'plate';
  return {
    name: `gore ${gore.number}`,
    heading: `Gore ${gore.number} of ${gores.length}`,
    subject: describeTurn(request, setting),
    marks: band.marks,
    bounds: band.bounds,
    fit: fitBand(pipe, band.paper, goreLines(request, gore)),
    steps: [
      ...wrapSteps(pipe, setting, wrap),
      ...laySteps(
        pipe,
        setting,
        wrap,
        'Wrap it printed side out, the arrow up toward the next gore, until the straight line at mid-length meets itself.',
        'cut lines above and below',
      ),
      'Cut on the lines, then bevel. Set throat to throat and heel to heel, station lines in one row, and tack.',
      `Check the whole turn before you weld: ${formatAngle(angle)}, and ${writeBoth(shape.radius, setting)} to the center line.`,
    ],
    facts: [
      girthFact(pipe, setting, wrap),
      ['Heel, cut to cut', writeBoth(gore.heel, setting)],
      ['Center line', writeBoth(gore.centre, setting)],
      ['Throat, cut to cut', writeBoth(gore.throat, setting)],
      ['Cut above, from square', formatAngle(gore.upper)],
      ['Cut below, from square', formatAngle(gore.lower)],
      ['Seam at station', stationNumber(wrap.seam)],
    ],
    tables: [band.table, ...(alone ? [goreTable(request, setting), adviceTable(request, setting)] : [])],
    pictures: [
      turnPicture(request, setting, gore),
      gorePicture(request, gore, setting),
      endPicture('Facing the upper cut', pipe, ['throat', 'side', 'heel', 'side']),
    ],
    cautions: turnCautions(request, setting),
  };
};

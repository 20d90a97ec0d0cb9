import { angle } from './angle.ts';
import { arc } from './arc.ts';
import { band } from './band.ts';
import { boltCircle } from './bolt-circle.ts';
import { branch } from './branch.ts';
import { bullPlug } from './bull-plug.ts';
import { center } from './center.ts';
import { chord } from './chord.ts';
import { compound } from './compound.ts';
import { centerSquare } from './center-square.ts';
import { frame } from './frame.ts';
import { holeGrid } from './hole-grid.ts';
import type { Layout } from './layout.ts';
import { miter } from './miter.ts';
import { piece } from './piece.ts';
import { protractor } from './protractor.ts';
import { rollingOffset } from './rolling-offset.ts';
import { plate } from './plate.ts';
import { radiusGauge } from './radius-gauge.ts';
import { orangePeel } from './orange-peel.ts';
import { swage } from './swage.ts';
import { ring } from './ring.ts';
import { slope } from './slope.ts';
import { spacing } from './spacing.ts';
import { square } from './square.ts';
import { topCenter } from './top-center.ts';
import { turn } from './turn.ts';
import { wye } from './wye.ts';

/** Every kind of template, in the order help lists them. A new layout adds its file and one line here. */
export const layouts: readonly Layout[] = [
  band,
  miter,
  turn,
  branch,
  wye,
  orangePeel,
  bullPlug,
  swage,
  piece,
  rollingOffset,
  center,
  centerSquare,
  chord,
  topCenter,
  boltCircle,
  holeGrid,
  square,
  angle,
  frame,
  protractor,
  compound,
  slope,
  radiusGauge,
  ring,
  spacing,
  arc,
  plate,
];

import { angle } from './angles/angle.ts';
import { arc } from './curves/arc/arc.ts';
import { band } from './pipe-ends/band.ts';
import { boltCircle } from './holes/bolt-circle/bolt-circle.ts';
import { branch } from './pipe-ends/branch/branch.ts';
import { bullPlug } from './heads/bull-plug.ts';
import { center } from './centers/center/center.ts';
import { chord } from './centers/chord/chord.ts';
import { cope } from './sections/cope/cope.ts';
import { fold } from './sections/fold.ts';
import { notch } from './sections/notch.ts';
import { compound } from './angles/compound/compound.ts';
import { centerSquare } from './centers/center-square/center-square.ts';
import { frame } from './angles/frame/frame.ts';
import { holeGrid } from './holes/hole-grid/hole-grid.ts';
import type { Layout } from '../fields/layout.ts';
import { closing } from './measured/closing/closing.ts';
import { bends } from './measured/bends/bends.ts';
import { makeup } from './measured/makeup/makeup.ts';
import { pad } from './measured/pad/pad.ts';
import { elbowTrim } from './measured/elbow-trim.ts';
import { support } from './measured/support/support.ts';
import { trim } from './measured/trim/trim.ts';
import { miter } from './pipe-ends/miter/miter.ts';
import { piece } from './pipe-ends/piece/piece.ts';
import { protractor } from './angles/protractor/protractor.ts';
import { rollingOffset } from './pipe-ends/rolling-offset/rolling-offset.ts';
import { plate } from './plate/plate/plate.ts';
import { radiusGauge } from './curves/radius-gauge/radius-gauge.ts';
import { orangePeel } from './heads/orange-peel.ts';
import { swage } from './heads/swage.ts';
import { ring } from './curves/ring/ring.ts';
import { slope } from './angles/slope/slope.ts';
import { spacing } from './holes/spacing/spacing.ts';
import { square } from './angles/square/square.ts';
import { topCenter } from './pipe-ends/top-center/top-center.ts';
import { turn } from './pipe-ends/turn/turn.ts';
import { blank } from './flat-patterns/blank/blank.ts';
import { breech } from './flat-patterns/breech/breech.ts';
import { cone } from './flat-patterns/cone/cone.ts';
import { flight } from './flat-patterns/flight/flight.ts';
import { gores } from './flat-patterns/gores/gores.ts';
import { hopper } from './flat-patterns/hopper.ts';
import { transition } from './flat-patterns/transition.ts';
import { wye } from './pipe-ends/wye/wye.ts';

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
  cone,
  transition,
  hopper,
  gores,
  breech,
  flight,
  blank,
  piece,
  rollingOffset,
  closing,
  makeup,
  trim,
  elbowTrim,
  bends,
  pad,
  support,
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
  cope,
  notch,
  fold,
];

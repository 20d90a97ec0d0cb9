import type { ConeShape } from '../../../geometry/cone-pattern.ts';
import { vec3 } from '../../../geometry/vector.ts';
import type { Body, BodySpec } from '../../../joint/bodies/body.ts';
import type { Motion } from '../../../joint/move-solid.ts';
import { moveSolid } from '../../../joint/move-solid.ts';
import type { Solid } from '../../../joint/solid.ts';

/** What an end of a cone is cut to, in the cone's own frame (large circle about the origin, axis up z). */
export interface EndCut {
  readonly bodies: readonly Body[];
  readonly solids: readonly Solid[];
}

export interface EndCuts {
  readonly large?: EndCut;
  readonly small?: EndCut;
}

interface Asked {
  readonly largeEnd: readonly BodySpec[] | undefined;
  readonly smallEnd: readonly BodySpec[] | undefined;
}

/** Bodies built for a branch of an end's diameter at the right angle, whose frame runs out of the end. */
const place = (specs: readonly BodySpec[], radius: number, motion: Motion): EndCut => {
  const asked = specs.length === 1 ? radius : 1e-6;
  const bodies = specs.map((spec, i) =>
    spec.build(
      {
        radius: asked,
        across: [-asked, asked],
        seat: 'outside',
        drawn: radius,
        main: i === 0,
        angle: Math.PI / 2,
        offset: 0,
      },
      spec.frame,
    ),
  );
  return { bodies, solids: bodies.map(({ outside }) => moveSolid(outside, motion)) };
};

/**
 * The bodies at both ends. A body lies as it does for a branch that comes to it: +z out of the end, station 0 where the
 * cone has it, the work point in the center of the end's circle. At the large end that frame is turned half round the
 * line of station 0, so its station 90 is the cone's 270.
 */
export const placeCuts = ({ largeEnd, smallEnd }: Asked, shape: ConeShape): EndCuts => {
  const down: Motion = {
    point: ({ x, y, z }) => vec3(x, -y, -z),
    direction: ({ x, y, z }) => vec3(x, -y, -z),
  };
  const up: Motion = {
    point: ({ x, y, z }) => vec3(x + shape.offset, y, z + shape.height),
    direction: (v) => v,
  };
  return {
    ...(largeEnd ? { large: place(largeEnd, shape.large, down) } : {}),
    ...(smallEnd ? { small: place(smallEnd, shape.small, up) } : {}),
  };
};

import { offsetSection } from '../geometry/section-offset.ts';
import type { Section } from '../geometry/section.ts';
import { vec3 } from '../geometry/vector.ts';
import type { Stock } from '../stock/stock.ts';
import type { Solid } from './solid.ts';

const ORIGIN = vec3(0, 0, 0);
const ALONG = vec3(0, 0, 1);

const prism = (section: Section): Solid => ({
  kind: 'prism',
  through: ORIGIN,
  along: ALONG,
  across: vec3(1, 0, 0),
  section,
});

const cylinder = (radius: number): Solid => ({ kind: 'cylinder', through: ORIGIN, along: ALONG, radius });

/** A stock's bore in its own frame, or its outside where it is not hollow: what an opening follows that it is set on. */
export const boreSolid = ({ round, wall, section }: Stock): Solid =>
  round !== undefined
    ? cylinder(round - wall)
    : prism({ outside: section.inside ?? section.outside, thickness: section.thickness });

/** A stock's outside in its own frame, `gap` mm larger all around: what an opening must clear that it passes through. */
export const clearSolid = ({ round, section }: Stock, gap: number): Solid =>
  round !== undefined
    ? cylinder(round + gap)
    : prism({
        outside: gap === 0 ? section.outside : offsetSection(section.outside, gap),
        thickness: section.thickness,
      });

import type { Form } from '../form.ts';
import type { Shape } from '../shape.ts';
import { bendForm } from './bend.ts';
import { coneForm } from './cone.ts';
import { openForm } from './opened.ts';
import { prismForm } from './prism.ts';
import { shellForm } from './shell.ts';
import { stockForm } from './stock.ts';
import { turnedForm } from './turned.ts';

/**
 * A shape as a closed body of triangles.
 * @param deviation how far its triangles may lie off the true surface, mm
 */
export const formOf = (shape: Shape, deviation: number): Form => {
  switch (shape.kind) {
    case 'stock':
      return stockForm(shape, deviation);
    case 'prism':
      return prismForm(shape, deviation);
    case 'cone':
      return coneForm(shape, deviation);
    case 'turned':
      return turnedForm(shape, deviation);
    case 'bend':
      return bendForm(shape, deviation);
    case 'shell':
      return shellForm(shape, deviation);
    case 'opened':
      return shape.holes.reduce(
        (form, hole) => openForm(form, hole, deviation),
        formOf(shape.body, deviation),
      );
  }
};

import type { Sheet } from './drawing/model.ts';
import { identify } from './identity.ts';
import type { Book } from './paging/book.ts';
import { paginate } from './paging/paginate.ts';
import type { Request } from './request.ts';

/** Draws a request's sheets, full size in mm. Throws a `joint` UserError where the part cannot be made. */
export const makeSheets = ({ layout, values, setting }: Request): readonly Sheet[] =>
  layout.draw(values, setting);

/**
 * Lays a request's sheets on its paper. Throws a `request` UserError where the paper has no room inside its margins.
 */
export const makeBook = (request: Request, sheets: readonly Sheet[] = makeSheets(request)): Book => ({
  ...paginate(sheets, { ...request.paging, identity: identify(request.spec, sheets) }),
  spec: request.spec,
});

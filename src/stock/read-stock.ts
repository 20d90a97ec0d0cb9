import type { LengthOptions } from '../units/length.ts';
import { refusals } from '../units/notation.ts';
import { checkIsText } from '../words/wrong-type.ts';
import { say, translate } from '../words/say.ts';
import { parseOvalPipe } from './oval-pipe.ts';
import { isOvalPipe, parsePipe } from './pipe.ts';
import { parseShaped, shapedKind } from './shaped.ts';
import type { Stock, StockKind } from './stock.ts';

/**
 * Reads any stock by its designation: shaped stock by its first word, a pipe as `parsePipe` or `parseOvalPipe` does,
 * which has no word of its own.
 * @param kinds what may be given; left out, anything
 * Throws a request error that says which kinds may be given where another is.
 */
export const parseStock = (
  text: string,
  options: LengthOptions = {},
  kinds?: readonly StockKind[],
): Stock => {
  checkIsText(text, options.path ?? 'stock', 'NPS 6 sch 40');
  const shaped = shapedKind(text);
  const kind = shaped ?? 'pipe';
  if (kinds && !kinds.includes(kind))
    throw refusals(options.path ?? 'stock')(
      'wrong-stock',
      /^[aeo]/.test(kind)
        ? say`${text.trim()} is an ${translate(kind)}`
        : say`${text.trim()} is a ${translate(kind)}`,
      say`give ${kinds.length > 1 ? say`${kinds.slice(0, -1).join(', ')} or ` : ''}${kinds.at(-1) ?? ''}`,
    );
  if (shaped) return parseShaped(text, options);
  return isOvalPipe(text) ? parseOvalPipe(text, options) : parsePipe(text, options);
};

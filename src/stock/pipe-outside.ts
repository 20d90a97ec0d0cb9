import { readClauses } from './clauses.ts';
import { findPipeSizes } from './size.ts';
import { formatAsWritten } from '../units/format.ts';
import { parseLength, type LengthOptions } from '../units/length.ts';
import { refusals } from '../units/notation.ts';
import { say } from '../words/say.ts';

/** A pipe size whose wall does not matter. */
export interface PipeOutside {
  /** `NPS 6`, `DN 150`, `OD 90 mm`. */
  readonly name: string;
  readonly od: number;
}

const HINT = () => say`write NPS 6, DN 150 or OD 168.3mm`;

/** Reads a pipe size without a wall: `NPS 6` (inch table), `DN 150` (metric table) or `OD 168.3mm`. */
export const parsePipeOutside = (text: string, { units, path = 'size' }: LengthOptions = {}): PipeOutside => {
  const refuse = refusals(path);
  const clauses = readClauses(text, ['nps', 'dn', 'od'], refuse, HINT());
  if (clauses.size !== 1) throw refuse('two-sizes', say`give one size at a time`, HINT());
  const outside = clauses.get('od');
  if (outside !== undefined) {
    const od = parseLength(outside, { units, path });
    if (od <= 0) throw refuse('size-not-positive', say`the outside diameter is not above zero`, HINT());
    return { name: `OD ${formatAsWritten(od, outside, units)}`, od };
  }
  const system = clauses.has('nps') ? 'NPS' : 'DN';
  const [size] = findPipeSizes(system, clauses.get(system.toLowerCase()) ?? '', refuse);
  if (!size) throw new Error('a size without rows');
  return { name: `${system} ${system === 'NPS' ? size.nps : size.dn}`, od: size.od };
};

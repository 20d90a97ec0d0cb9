import { Lexer } from 'yaml';

/** Levels of lists and groups in one line; a job file has three. */
const most = 12;
/** Longest indentation: every level of a file takes at least one space of it. */
const mostIndent = 80;

/**
 * True where lists and groups of YAML stand deeper in each other than any job file's. Asked before the text is parsed,
 * since parsing goes down with every level and could use up all memory.
 */
export const isTooDeep = (text: string): boolean => {
  let flow = 0;
  let inLine = 0;
  let isScalar = false;
  let isLineStart = true;
  for (const token of new Lexer().lex(text)) {
    const sign = token[0] ?? '';
    const isEnd = sign === '\n' || sign === '\r';
    // The text of a plain scalar follows this sign as a token of its own.
    if (isScalar) isScalar = false;
    else if (token === '\x1f') isScalar = true;
    else if (isEnd) inLine = 0;
    else if (sign === '[' || sign === '{') flow++;
    else if (sign === ']' || sign === '}') flow = Math.max(0, flow - 1);
    else if (flow === 0 && (sign === '-' || sign === '?' || sign === ':')) inLine++;
    else if (flow === 0 && sign === ' ' && isLineStart && token.length > mostIndent) return true;
    if (flow > most || inLine > most) return true;
    isLineStart = isEnd;
  }
  return false;
};

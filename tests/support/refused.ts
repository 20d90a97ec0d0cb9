import { UserError } from '../../src/issue.ts';
import { makeSheets, readRequest, type Texts } from '../../src/index.ts';

/** How a request that cannot be drawn is refused: `failure path code`, and the lines a person reads. */
export const refused = (
  layout: string,
  texts: Texts,
): { readonly what: string; readonly message: string; readonly hint: string } => {
  try {
    makeSheets(readRequest(layout, texts));
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    const [issue] = error.issues;
    if (!issue || error.issues.length !== 1) throw error;
    return {
      what: `${error.failure} ${issue.path} ${issue.code}`,
      message: issue.message,
      hint: issue.hint,
    };
  }
  throw new Error(`${layout} was drawn: ${JSON.stringify(texts)}`);
};

import { UserError } from '../../src/issue.ts';
import { drawRequest } from '../../src/jobs/draw-request.ts';
import { renderFile } from '../../src/jobs/make.ts';
import { layouts } from '../../src/layouts/registry.ts';
import { proveFile } from '../../src/proof/prove.ts';
import { readRequest } from '../../src/request.ts';
import type { FuzzRequest } from './requests.ts';

/** What became of a request: a print that proves, a refusal in words, or a defect. */
export type Result =
  { readonly kind: 'printed' | 'refused' } | { readonly kind: 'defect'; readonly what: string };

const make = async ({ layout, texts, also }: FuzzRequest): Promise<Result> => {
  const request = readRequest(layout, texts, layouts);
  const drawn = drawRequest(request, false);
  const pdf = await renderFile('pdf', drawn);
  try {
    await renderFile(also, drawn);
  } catch (error) {
    // A file format may refuse what it has no place for; the print itself may not.
    if (!(error instanceof UserError)) throw error;
  }
  const { ok, findings } = proveFile(pdf);
  if (ok) return { kind: 'printed' };
  const [first] = findings.filter((finding) => !finding.ok);
  return { kind: 'defect', what: `does not prove: ${first?.where}: ${first?.check}: ${first?.measured}` };
};

/** Runs one request through the whole pipeline to bytes and back through the proof. */
export const tryRequest = async (request: FuzzRequest): Promise<Result> => {
  try {
    return await make(request);
  } catch (error) {
    if (!(error instanceof UserError))
      return {
        kind: 'defect',
        what: error instanceof Error ? (error.stack ?? error.message) : String(error),
      };
    const isTold =
      error.issues.length > 0 && error.issues.every(({ message, hint }) => message !== '' && hint !== '');
    return isTold ? { kind: 'refused' } : { kind: 'defect', what: 'refused without words' };
  }
};

import { checkCorrection, checkPages, checkRecord, checkRules } from './file-checks.ts';
import { factFinding, type Finding } from './finding.ts';
import { readPdf, type PdfFile } from './pdf-reader.ts';
import { calibrationName } from '../paging/calibration-sheet.ts';
import { defaultMargin } from '../paging/options.ts';
import { parsePaper } from '../paging/paper.ts';
import { readSpec, type Paging } from '../request.ts';
import { checkSheet } from './sheet-checks.ts';

/** Everything measured on a finished file. */
export interface Proof {
  readonly findings: readonly Finding[];
  readonly ok: boolean;
}

/** The paper, the clear margins and the printer the print was asked for. */
const readAsked = (file: PdfFile): Pick<Paging, 'paper' | 'margin' | 'printer'> => {
  const spec = file.record?.spec as Parameters<typeof readSpec>[0];
  if (spec.layout === calibrationName)
    return { paper: parsePaper([spec.paper ?? ''].flat().join()), margin: defaultMargin };
  return readSpec(spec).paging;
};

/**
 * Measures a print from its bytes alone: what it says of itself, every page's rules, margins and layers, how its pages join, its
 * girths and seams, and each cut end rolled up and fitted to what `soapstone.json` says it meets. Whatever cannot be read
 * is a finding that failed, never an exception.
 */
export const proveFile = (bytes: Uint8Array): Proof => {
  const findings: Finding[] = [];
  const measure = (what: string, check: () => readonly Finding[]): void => {
    try {
      findings.push(...check());
    } catch (error) {
      findings.push(
        factFinding(what, 'file', false, error instanceof Error ? error.message : String(error), 'readable'),
      );
    }
  };
  let file: PdfFile | undefined;
  measure('file', () => {
    file = readPdf(bytes);
    return [];
  });
  const read = file;
  if (read !== undefined) {
    measure('record', () => checkRecord(read));
    measure('rules', () => checkRules(read));
    measure('pages', () => checkPages(read, readAsked(read).margin));
    measure('correction for the printer', () => checkCorrection(read, readAsked(read)));
    for (const sheet of read.record?.sheets ?? [])
      measure(`sheet ${sheet.name}`, () => checkSheet(read, sheet));
  }
  return { findings, ok: findings.length > 0 && findings.every(({ ok }) => ok) };
};

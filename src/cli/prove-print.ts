import { UserError } from '../issue.ts';
import { makeCalibrationSheet } from '../paging/calibration-sheet.ts';
import { calibrationName } from '../paging/calibration-sheet.ts';
import { parsePaper } from '../paging/paper.ts';
import { openPdf } from '../proof/pdf-document.ts';
import { readOpened } from '../proof/pdf-reader.ts';
import { factFinding, type Finding } from '../proof/finding.ts';
import { proveFile, type Proof } from '../proof/prove.ts';
import { compareDocuments, type Opened } from '../proof/same-document.ts';
import { version } from '../version.ts';
import { readBackCommand } from './calibrate-command.ts';
import { say } from '../words/say.ts';

/** How a file stands against what this version draws from the request inside it. */
export interface DrawnVerdict {
  /**
   * `same`: byte for byte; `re-saved`: other bytes, the same drawing; `differs`: another drawing than this same version makes;
   * `other version`: another drawing, but another version made it; `not made`: nothing to compare with.
   */
  readonly state: 'same' | 're-saved' | 'differs' | 'other version' | 'not made';
  readonly findings: readonly Finding[];
}

/** Both verdicts on a file: what was measured on it, and whether this version draws it so. */
export interface PrintVerdict {
  readonly measured: Proof;
  readonly drawn: DrawnVerdict;
  /** True where both hold; where another version made the file, what was measured decides alone. */
  readonly ok: boolean;
}

const check = () => say`as this version draws it`;

const remake = async (spec: unknown): Promise<Uint8Array> => {
  const { layout, printer, paper } = spec as Readonly<Record<string, unknown>>;
  if (layout === calibrationName && typeof printer === 'string' && typeof paper === 'string') {
    const { renderPdf } = await import('../render/pdf.ts');
    const read = parsePaper(paper);
    return renderPdf(makeCalibrationSheet(printer, read, readBackCommand(printer, read)));
  }
  const { remakePrint } = await import('../jobs/remake.ts');
  return (await remakePrint(spec, (same) => same)).bytes;
};

const open = (bytes: Uint8Array): Opened => {
  const objects = openPdf(bytes);
  return { objects, file: readOpened(objects) };
};

const notMade = (measured: string): DrawnVerdict => ({
  state: 'not made',
  findings: [factFinding(check(), say`file`, false, measured, say`a print that can be made again`)],
});

const compareWith = async (bytes: Uint8Array, { file, objects }: Proof): Promise<DrawnVerdict> => {
  if (file?.record === undefined || objects === undefined)
    return notMade(say`the file does not say how it was made`);
  const made = await remake(file.record.spec);
  if (Buffer.from(made).equals(bytes))
    return {
      state: 'same',
      findings: [factFinding(check(), say`file`, true, say`byte for byte`, say`no difference`)],
    };
  const differences = compareDocuments({ file, objects }, open(made));
  const finding = (ok: boolean, measured: string): readonly Finding[] => [
    factFinding(check(), say`file`, ok, measured, say`no difference in anything drawn or said`),
  ];
  const by = file.record.version.slice(0, 20);
  if (differences.length === 0) {
    const how = file.saved.length === 0 ? '' : ` (${file.saved.join(', ')})`;
    const told =
      by === version
        ? say`the same drawing, saved again by another program${how}`
        : say`the same drawing as version ${by} made`;
    return { state: 're-saved', findings: finding(true, told) };
  }
  const told = differences.join('; ');
  return by === version
    ? { state: 'differs', findings: finding(false, told) }
    : { state: 'other version', findings: finding(true, say`not compared: made by version ${by}`) };
};

/**
 * Proves a print twice over: by measuring it, and by making it again from the request inside it and comparing the two. A file
 * that nothing can be read from, or that holds more than a print does, is not made again.
 */
export const provePrint = async (bytes: Uint8Array): Promise<PrintVerdict> => {
  const measured = proveFile(bytes);
  const drawn = await (measured.ok ? compareSafely(bytes, measured) : Promise.resolve(skipped));
  return { measured, drawn, ok: measured.ok && drawn.findings.every(({ ok }) => ok) };
};

const skipped: DrawnVerdict = { state: 'not made', findings: [] };

const compareSafely = async (bytes: Uint8Array, measured: Proof): Promise<DrawnVerdict> => {
  try {
    return await compareWith(bytes, measured);
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    return notMade(say`it cannot be made again: ${error.issues[0]?.message.slice(0, 200)}`);
  }
};

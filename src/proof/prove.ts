import { checkCorrection, checkPages, checkRecord, checkRules } from './file-checks.ts';
import { factFinding, type Finding } from './finding.ts';
import { readPdf, type PdfFile } from './pdf-reader.ts';
import { calibrationName } from '../paging/calibration-sheet.ts';
import { defaultMargin } from '../paging/options.ts';
import { parsePaper } from '../paging/paper.ts';
import { isBookSpec } from '../book-spec.ts';
import { readSpec, type Paging, type Spec } from '../request.ts';
import { checkSheet } from './sheet-checks.ts';

/** Everything measured on a finished file. */
export interface Proof {
  readonly findings: readonly Finding[];
  readonly ok: boolean;
}

type Asked = Pick<Paging, 'paper' | 'margin' | 'printer'>;

/** Some of a file's pages, with the paper, the clear margins and the printer they were asked for. */
interface Share {
  readonly file: PdfFile;
  readonly asked: Asked;
}

const readAsked = (spec: Spec): Asked =>
  spec.layout === calibrationName
    ? { paper: parsePaper([spec.paper ?? ''].flat().join()), margin: defaultMargin }
    : readSpec(spec).paging;

/** The pages by what they were asked for: all of them alike, or piece by piece in a book, the index with the first. */
const shareOut = (file: PdfFile): readonly Share[] => {
  const spec = file.record?.spec;
  if (!isBookSpec(spec)) return [{ file, asked: readAsked(spec as Spec) }];
  const [head, ...others] = spec.pieces;
  const ends = spec.pieces.map(({ first, pages }) => first + pages);
  const isWhole = head !== undefined && ends[ends.length - 1] === file.pages.length + 1;
  if (!isWhole || others.some(({ first }, i) => first !== ends[i]))
    throw new Error('the pieces of the book do not take all its pages');
  return spec.pieces.map(({ first, pages, spec: own }, i) => ({
    file: { ...file, pages: file.pages.slice(i === 0 ? 0 : first - 1, first - 1 + pages) },
    asked: readAsked(own),
  }));
};

/** Every finding that failed; the first share's where none did. */
const gather = (
  shares: readonly Share[],
  check: (share: Share) => readonly Finding[],
): readonly Finding[] => {
  const found = shares.map(check);
  const failed = found.flat().filter(({ ok }) => !ok);
  return failed.length > 0 ? failed : (found[0] ?? []);
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
    measure('pages', () => gather(shareOut(read), ({ file: part, asked }) => checkPages(part, asked.margin)));
    measure('correction for the printer', () =>
      gather(shareOut(read), ({ file: part, asked }) => checkCorrection(part, asked)),
    );
    for (const sheet of read.record?.sheets ?? [])
      measure(`sheet ${sheet.name}`, () => checkSheet(read, sheet));
  }
  return { findings, ok: findings.length > 0 && findings.every(({ ok }) => ok) };
};

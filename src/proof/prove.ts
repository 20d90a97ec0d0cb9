import { createHash } from 'node:crypto';
import { readFontFile } from '../render/font-files.ts';
import { takeAccount } from './account.ts';
import { checkCodes } from './code-checks.ts';
import { checkCorrection, checkPages, checkRecord, checkRules, takesAllPages } from './file-checks.ts';
import { factFinding, type Finding } from './finding.ts';
import { checkFonts, openFonts, type Fonts } from './font-checks.ts';
import { checkInk } from './ink-checks.ts';
import { BeyondLimit } from './limits.ts';
import { openPdf, type PdfObjects } from './pdf-document.ts';
import type { Lettering } from './pdf-fonts.ts';
import { readOpened, type PdfFile } from './pdf-reader.ts';
import { checkPrinted } from './printed-checks.ts';
import { checkSheet } from './sheet-checks.ts';
import { say } from '../words/say.ts';

/** Everything measured on a finished file. */
export interface Proof {
  readonly findings: readonly Finding[];
  readonly ok: boolean;
  /** The file as it was read, where it could be. */
  readonly file?: PdfFile;
  readonly objects?: PdfObjects;
}

/** So many things wrong are enough: the rest is not measured. */
const enough = 12;

/** The whole document holds nothing but what a print holds. */
const checkDocument = (objects: PdfObjects, file: PdfFile): readonly Finding[] => {
  const { faults, values } = takeAccount(objects, file.leaves);
  const names = [...file.attachments.keys()];
  const strange = names.filter((name) => name !== 'soapstone.json').map((name) => say`a file ${name} inside`);
  const told = [...faults, ...strange];
  return [
    factFinding(
      say`whole document`,
      say`file`,
      told.length === 0,
      told.length === 0 ? say`${values} entries, all known` : told.slice(0, 5).join('; '),
      say`only what a print holds`,
    ),
    factFinding(
      say`record unchanged`,
      say`file`,
      file.recordSum === undefined || file.recordSum === sumOf(file.attachments.get('soapstone.json')),
      file.recordSum ?? say`no check sum`,
      say`the check sum of soapstone.json`,
    ),
  ];
};

/** ISO 32000-1 table 46: the check sum of an embedded file is its MD5. */
const sumOf = (bytes: Uint8Array | undefined): string =>
  createHash('md5')
    .update(bytes ?? '')
    .digest('hex');

const checkFile = (file: PdfFile, fonts: Fonts): readonly (readonly [string, () => readonly Finding[]])[] => [
  [say`record`, () => checkRecord(file)],
  [say`ink`, () => checkInk(file)],
  [say`lettering`, () => checkFonts(file, fonts)],
  [say`codes`, () => checkCodes(file, fonts)],
  [say`rules`, () => checkRules(file)],
  [say`pages`, () => checkPages(file)],
  [say`correction for the printer`, () => checkCorrection(file)],
];

/**
 * Measures a print from its bytes alone: that the document holds nothing but what a print holds, what it says of itself, every
 * page's rules, margins, layers, ink and lettering, how its pages join, its girths and seams, and each cut end rolled up and
 * fitted to what `soapstone.json` says it meets. Whatever cannot be read is a finding that failed, never an exception; a file
 * that asks for more time or memory than any print is not measured further.
 */
export const proveFile = (bytes: Uint8Array, lettering: Lettering = readFontFile): Proof => {
  const findings: Finding[] = [];
  let isStopped = false;
  const measure = (what: string, check: () => readonly Finding[]): void => {
    if (isStopped) return;
    try {
      findings.push(...check());
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      findings.push(factFinding(what, say`file`, false, why.slice(0, 300), say`readable`));
      isStopped = error instanceof BeyondLimit || error instanceof RangeError;
    }
    isStopped ||= findings.filter(({ ok }) => !ok).length >= enough;
  };
  let objects: PdfObjects | undefined;
  let file: PdfFile | undefined;
  measure(say`file`, () => {
    objects = openPdf(bytes);
    file = readOpened(objects);
    return checkDocument(objects, file);
  });
  if (objects !== undefined && file !== undefined) {
    const [opened, read] = [objects, file];
    const fonts = openFonts(opened, lettering);
    for (const [what, check] of checkFile(read, fonts)) measure(what, check);
    if (takesAllPages(read))
      for (const sheet of read.record?.sheets ?? [])
        measure(say`sheet ${sheet.name.slice(0, 60)}`, () => [
          ...checkSheet(read, sheet),
          ...checkPrinted(read, fonts, sheet),
        ]);
  }
  return {
    findings,
    ok: findings.length > 0 && findings.every(({ ok }) => ok),
    ...(file && { file }),
    ...(objects && { objects }),
  };
};

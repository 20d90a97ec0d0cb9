import { requestError } from '../issue.ts';
import { groupInputs } from '../fields/describe.ts';
import type { Spec } from '../request.ts';
import { layouts } from '../layouts/registry.ts';
import { calibrationName } from '../paging/calibration-sheet.ts';
import { version } from '../version.ts';
import { say, translate } from '../words/say.ts';
import { advisePrint } from './advice.ts';
import { tellLine, type Command, type Given, type Option } from './command.ts';
import { makeOption } from './layout-command.ts';
import { planOutputs } from './outputs.ts';
import { readInput } from './read-file.ts';

/** What may be changed in a print made again: how it is laid on paper and what its title block says. */
const changeable = (): readonly Option[] => {
  const [any] = layouts;
  if (any === undefined) return [];
  return groupInputs(any)
    .filter(({ heading }) => heading === 'Paper' || heading === 'Title block')
    .flatMap(({ heading, inputs }) =>
      [...inputs].map(([name, field]) => ({
        ...makeOption(`${heading}:`, name, field),
        group: `${translate(heading)}:`,
      })),
    );
};

/** Makes a print again from the file itself. */
export const reprintCommand = (): Command => ({
  name: 'reprint',
  summary: 'make a print again from the PDF itself, on other paper or for another printer if asked',
  usage: 'reprint FILE.pdf [--paper P …] [-o FILE]',
  examples: [
    'reprint tee.pdf -o tee-again.pdf',
    'reprint tee.pdf --paper a3 -o tee-a3.pdf',
    'reprint tee.pdf --printer "shop laser"',
  ],
  options: [
    {
      name: 'output',
      letter: 'o',
      group: 'Output:',
      kind: 'text',
      help: 'FILE: where to write (default: the name with -again)',
    },
    ...changeable(),
  ],
  words: 1,
  run: async ({ words, texts: given }) => {
    const [file] = words;
    if (file === undefined)
      throw requestError(
        '',
        'no-file',
        say`no file is named`,
        say`name the PDF to be made again, as in: soapstone reprint tee.pdf`,
      );
    const { output, ...changes } = given;
    const [target = file.replace(/(\.pdf)?$/i, '-again.pdf'), another] = [output ?? []].flat();
    if (another !== undefined || !/\.pdf$/i.test(target))
      throw requestError(
        'output',
        'one-pdf',
        say`a print is made again as one PDF`,
        say`give one -o FILE.pdf`,
      );
    planOutputs([target]);
    const record = await readRecord(file);
    const [{ remakePrint }, { writeFile }, { readPdf }] = await Promise.all([
      import('../jobs/remake.ts'),
      import('../render/write-file.ts'),
      import('../proof/pdf-reader.ts'),
    ]);
    const same = await remakePrint(record.spec, (spec) => spec);
    const drawn = readPdf(same.bytes).pages.map((page) => page.digest);
    const changed =
      drawn.length !== record.content.length || drawn.some((digest, i) => digest !== record.content[i]);
    const isAsIs = Object.keys(changes).length === 0;
    const remade = isAsIs ? same : await remakePrint(record.spec, (spec) => changeSpec(spec, changes));
    await writeFile(target, remade.bytes);
    tellLine(say`Wrote ${target}`);
    tellLine(
      changed
        ? say`NOTE: ${record.version} drew this print differently from ${version}, which made it again: compare the two before you use either.`
        : say`Drawn exactly as the first print${isAsIs ? '' : say`, then laid out as asked`}.`,
    );
    const { page, paging } = remade;
    if (page !== undefined) advisePrint(target, page, paging.printer).forEach(tellLine);
  },
});

/** The spec with what was asked; another printer or paper needs a calibration of its own. */
const changeSpec = (spec: Spec, changes: Given['texts']): Spec => {
  const isStale = changes.printer !== undefined || changes.paper !== undefined;
  const { calibration, ...rest } = spec;
  const kept = isStale || calibration === undefined ? {} : { calibration };
  return { ...rest, ...kept, ...changes } as Spec;
};

const readRecord = async (
  file: string,
): Promise<{ readonly spec: unknown; readonly content: readonly string[]; readonly version: string }> => {
  const bytes = readInput(file);
  const { readPdf } = await import('../proof/pdf-reader.ts');
  let record;
  try {
    record = readPdf(bytes).record;
  } catch {
    throw requestError(
      '',
      'not-a-print',
      say`${file} is not a Soapstone print that can be read`,
      say`give a PDF that soapstone wrote and nothing has changed since`,
    );
  }
  if (record?.program !== 'soapstone')
    throw requestError(
      '',
      'not-a-print',
      say`${file} is not a Soapstone print`,
      say`give a PDF that soapstone wrote`,
    );
  if ((record.spec as Spec).layout === calibrationName)
    throw requestError(
      '',
      'calibration-sheet',
      say`${file} is a calibration sheet`,
      say`print a new one with "soapstone calibrate"`,
    );
  return {
    spec: record.spec,
    content: (record.pages ?? []).map(({ content }) => content),
    version: record.version,
  };
};

import type { JSX } from 'preact';
import type { Issue } from '../../../issue.ts';
import { core } from '../link.ts';
import { changePieces, notice, openRequest, opened, tellFault } from '../state.ts';
import { say } from '../../../words/say.ts';

const words = () => ({
  open: say`Open a file`,
  help: say`Job file (.yaml), cut list (.csv) or a PDF made here; or drop it anywhere on the page.`,
  taken: (count: number): string => say`${count} pieces added to the list`,
});

/** Reads a file: one request opens in its form, several go to the list of pieces. */
const take = async (file: File): Promise<readonly Issue[]> => {
  const found = await (await core).openFile(file.name, new Uint8Array(await file.arrayBuffer()));
  if (found.kind === 'refused') return found.issues;
  const [first, ...more] = found.value.pieces;
  if (first !== undefined && more.length === 0 && found.value.book === undefined) openRequest(first);
  else if (first !== undefined) {
    await changePieces((list) => [...list, ...found.value.pieces]);
    notice.value = words().taken(found.value.pieces.length);
    location.hash = '#/pieces';
  }
  return found.value.issues;
};

/** Takes files one after another, and says what is wrong with them. */
export const takeFiles = async (files: Iterable<File>): Promise<void> => {
  try {
    const told: Issue[] = [];
    for (const file of files) told.push(...(await take(file)));
    opened.value = told;
  } catch (error) {
    tellFault(error);
  }
};

/** A key that opens files; the whole page takes dropped ones. */
export const OpenFile = (): JSX.Element => (
  <label class="open-file">
    <input
      type="file"
      multiple
      accept=".yaml,.yml,.csv,.pdf"
      aria-describedby="open-help"
      onChange={(event) => {
        void takeFiles(event.currentTarget.files ?? []);
        event.currentTarget.value = '';
      }}
    />
    <span>{words().open}</span>
    <small id="open-help">{words().help}</small>
  </label>
);

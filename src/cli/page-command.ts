import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fileError, requestError } from '../issue.ts';
import { makeFolder, writeFile } from '../render/write-file.ts';
import { version } from '../version.ts';
import { tellLine, type Command } from './command.ts';
import { say } from '../words/say.ts';

/** A part of the page as `npm run build` left it. */
const readBuilt = (name: string): string => {
  try {
    return readFileSync(createRequire(import.meta.url).resolve(`#page/${name}`), 'utf8');
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    if (!['ENOENT', 'MODULE_NOT_FOUND', 'ERR_PACKAGE_IMPORT_NOT_DEFINED'].includes(code)) throw error;
    throw fileError('', 'no-page', say`the page is not built`, say`build it first: npm run build`);
  }
};

/** The page with what an installed one needs: its manifest, and leave for its own worker. */
const forServer = (html: string): string =>
  html
    .replace('worker-src blob:;', "worker-src blob: 'self'; manifest-src 'self';")
    .replace('</title>', '</title>\n    <link rel="manifest" href="manifest.webmanifest" />');

const icon = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 512 512"><rect width="512" height="512" fill="#fff"/><path d="M72 344c92 0 108-208 184-208s92 208 184 208" fill="none" stroke="#b3261e" stroke-width="40"/><path d="M72 424h368" stroke="#111" stroke-width="28"/></svg>\n`;

const manifest = {
  name: 'Soapstone',
  short_name: 'Soapstone',
  description: 'Full-size layout templates for pipe and plate work',
  start_url: './',
  scope: './',
  display: 'standalone',
  background_color: '#ffffff',
  theme_color: '#ffffff',
  icons: [{ src: 'icon.svg', sizes: 'any', type: 'image/svg+xml', purpose: 'any maskable' }],
};

/** The files of a page that is served. */
const serverFiles = (): readonly (readonly [name: string, content: string])[] => [
  ['index.html', forServer(readBuilt('page.html'))],
  ['keeper.js', `// Soapstone ${version}\n${readBuilt('keeper.js')}`],
  ['manifest.webmanifest', `${JSON.stringify(manifest, null, 2)}\n`],
  ['icon.svg', icon],
];

/** Writes the page that does in a browser what the command line does. */
export const pageCommand: Command = {
  name: 'page',
  summary:
    'write the page: the whole program in one file for a phone or an office machine, without a network',
  usage: 'page [-o FILE.html | --folder DIR]',
  examples: ['page -o soapstone.html', 'page --folder www'],
  options: [
    {
      name: 'output',
      letter: 'o',
      group: 'Output:',
      kind: 'text',
      help: 'FILE.html: where to write it (default soapstone.html)',
    },
    {
      name: 'folder',
      group: 'Output:',
      kind: 'text',
      help: 'DIR: write it to be served over HTTPS instead, so that phones can install it',
    },
  ],
  words: 0,
  run: async ({ texts }) => {
    const [outputs, folders] = [[texts.output ?? []].flat(), [texts.folder ?? []].flat()];
    if (outputs.length + folders.length > 1)
      throw requestError(
        'output',
        'one-place',
        say`several places to write the page to are given`,
        say`give one: -o FILE.html, or --folder DIR`,
      );
    const [folder] = folders;
    if (folder === undefined) {
      const [file = 'soapstone.html'] = outputs;
      await writeFile(file, readBuilt('page.html'));
      tellLine(say`Wrote ${file}`);
      tellLine(say`Open it in any browser, from a stick, a mail or a share. It sends nothing anywhere.`);
      return;
    }
    const files = serverFiles();
    await makeFolder(folder, 'folder');
    for (const [name, content] of files) {
      await writeFile(join(folder, name), content);
      tellLine(say`Wrote ${join(folder, name)}`);
    }
    tellLine(say`Serve the folder over HTTPS: a phone that has opened it once keeps it and can install it.`);
  },
};

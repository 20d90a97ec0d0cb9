import { spawn, spawnSync, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { vi } from 'vitest';
import { bundle } from '../../.tools/bundle.ts';
import { main } from '../../src/cli/main.ts';
import { speak } from '../../src/words/languages.ts';

/** What a run of the program left behind. */
export interface Ran {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs one command line in this process, in a folder, which is much quicker than a process of its own. */
export const runInside = async (folder: string, words: readonly string[]): Promise<Ran> => {
  const home = process.cwd();
  const told = { stdout: '', stderr: '' };
  const spies = (['stdout', 'stderr'] as const).map((name) =>
    vi.spyOn(process[name], 'write').mockImplementation((chunk) => {
      told[name] += String(chunk);
      return true;
    }),
  );
  process.chdir(folder);
  try {
    const code = await main(words);
    return { code, ...told };
  } finally {
    process.chdir(home);
    speak('en');
    for (const spy of spies) spy.mockRestore();
  }
};

/** The program built as it is shipped, once and run as a process of its own. */
export interface CommandLine {
  /** Runs one command line in a folder. */
  readonly run: (folder: string, words: readonly string[], env?: Readonly<Record<string, string>>) => Ran;
  /** Starts one command line in a folder and leaves it running. */
  readonly start: (
    folder: string,
    words: readonly string[],
    node?: readonly string[],
    env?: Readonly<Record<string, string>>,
  ) => ChildProcess;
  /** The program's file. */
  readonly bin: string;
  /** A new empty folder. */
  readonly makeFolder: () => string;
  /** Removes all it made. */
  readonly close: () => void;
}

/** Builds the command line into a folder under `out`: the program finds its fonts by this package. */
export const buildCommandLine = async (): Promise<CommandLine> => {
  const home = mkdtempSync(join(import.meta.dirname, '../../out/program-'));
  const folders: string[] = [home];
  const bin = join(home, 'soapstone.js');
  await bundle(home);
  return {
    run: (folder, words, env = {}) => {
      const { status, stdout, stderr } = spawnSync(process.execPath, [bin, ...words], {
        cwd: folder,
        encoding: 'utf8',
        env: { PATH: process.env.PATH ?? '', ...env },
      });
      return { code: status, stdout, stderr };
    },
    bin,
    start: (folder, words, node = [], env = {}) =>
      spawn(process.execPath, [...node, bin, ...words], {
        cwd: folder,
        env: { PATH: process.env.PATH ?? '', ...env },
        stdio: ['ignore', 'pipe', 'pipe'],
      }),
    makeFolder: () => {
      const folder = mkdtempSync(join(tmpdir(), 'soapstone-'));
      folders.push(folder);
      return folder;
    },
    close: () => {
      for (const folder of folders) rmSync(folder, { recursive: true, force: true });
    },
  };
};

import { spawn, spawnSync, type ChildProcess } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { vi } from 'vitest';
import { main } from '../../src/cli/main.ts';

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
    for (const spy of spies) spy.mockRestore();
  }
};

/** The program built as it is shipped, once and run as a process of its own. */
export interface CommandLine {
  /** Runs one command line in a folder. */
  readonly run: (folder: string, words: readonly string[], env?: Readonly<Record<string, string>>) => Ran;
  /** Starts one command line in a folder and leaves it running. */
  readonly start: (folder: string, words: readonly string[], node?: readonly string[]) => ChildProcess;
  /** A new empty folder. */
  readonly makeFolder: () => string;
  /** Removes all it made. */
  readonly close: () => void;
}

/** Builds the command line. The bundle stands under `node_modules`, where it finds its packages. */
export const buildCommandLine = async (): Promise<CommandLine> => {
  const cache = join(import.meta.dirname, '../../node_modules/.cache');
  mkdirSync(cache, { recursive: true });
  const home = mkdtempSync(join(cache, 'soapstone-'));
  const folders: string[] = [home];
  const bin = join(home, 'soapstone.js');
  await build({
    entryPoints: [join(import.meta.dirname, '../../src/cli/bin.ts')],
    outdir: home,
    entryNames: 'soapstone',
    bundle: true,
    splitting: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    banner: {
      js: "import{createRequire as makeRequire}from'node:module';const require=makeRequire(import.meta.url);",
    },
  });
  return {
    run: (folder, words, env = {}) => {
      const { status, stdout, stderr } = spawnSync(process.execPath, [bin, ...words], {
        cwd: folder,
        encoding: 'utf8',
        env: { PATH: process.env.PATH ?? '', ...env },
      });
      return { code: status, stdout, stderr };
    },
    start: (folder, words, node = []) =>
      spawn(process.execPath, [...node, bin, ...words], {
        cwd: folder,
        env: { PATH: process.env.PATH ?? '' },
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

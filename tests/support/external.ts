import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Programs from outside the project that read our files, and the system package each comes in. */
const packages = {
  qpdf: 'qpdf',
  mutool: 'mupdf-tools',
  pdfinfo: 'poppler-utils',
  pdffonts: 'poppler-utils',
  pdfdetach: 'poppler-utils',
  pdftoppm: 'poppler-utils',
  gs: 'ghostscript',
} as const;
export type Tool = keyof typeof packages;

export interface ToolResult {
  readonly status: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs a program and gives what it said. Throws where it is not installed or was killed, not where it merely fails. */
export function runTool(tool: Tool, args: readonly string[]): ToolResult {
  const { error, status, signal, stdout, stderr } = spawnSync(tool, args, {
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  if (error && (error as NodeJS.ErrnoException).code === 'ENOENT')
    throw new Error(
      `${tool} is not installed: the tests need the system package ${packages[tool]}, see .ci/run`,
    );
  if (error) throw error;
  if (status === null) throw new Error(`${tool} was stopped by ${signal}`);
  return { status, stdout, stderr };
}

/** Lends a file with these bytes, and its folder, for as long as `use` runs. */
export function withFile<T>(bytes: Uint8Array, use: (file: string, folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'soapstone-test-'));
  try {
    const file = join(folder, 'sheet.pdf');
    writeFileSync(file, bytes);
    return use(file, folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const succeed = (tool: Tool, args: readonly string[]): ToolResult => {
  const result = runTool(tool, args);
  if (result.status !== 0)
    throw new Error(`${tool} ended with ${result.status}: ${result.stderr || result.stdout}`);
  return result;
};

/** What mutool says of itself and its progress whatever the file. */
const ownRemarks = /^page .*\d+$|ICC support is not available/;

/** What four readers complain of in a PDF, one line a complaint: none for a clean file. */
export function complaintsAbout(bytes: Uint8Array): string[] {
  return withFile(bytes, (file) => {
    const runs: [Tool, string[]][] = [
      ['qpdf', ['--check', file]],
      ['mutool', ['draw', '-F', 'trace', '-o', '/dev/null', file]],
      ['pdfinfo', [file]],
      ['gs', ['-q', '-dNOPAUSE', '-dBATCH', '-dSAFER', '-sDEVICE=nullpage', file]],
    ];
    return runs.flatMap(([tool, args]) => {
      const { status, stdout, stderr } = runTool(tool, args);
      const said = tool === 'gs' ? stdout + stderr : stderr;
      const lines = said.split('\n').filter((line) => line.trim() !== '' && !ownRemarks.test(line));
      return [...(status === 0 ? [] : [`exit ${status}`]), ...lines].map((line) => `${tool}: ${line}`);
    });
  });
}

/** Page sizes in points as poppler reads them, in page order. */
export function pageSizes(bytes: Uint8Array): { readonly width: number; readonly height: number }[] {
  return withFile(bytes, (file) => {
    const { stdout } = succeed('pdfinfo', ['-l', '-1', file]);
    return [...stdout.matchAll(/^Page\s+\d+ size:\s+([\d.]+) x ([\d.]+) pts/gm)].map(([, width, height]) => ({
      width: Number(width),
      height: Number(height),
    }));
  });
}

/** Names of embedded fonts as poppler lists them. Throws where a font is not embedded. */
export function embeddedFonts(bytes: Uint8Array): string[] {
  return withFile(bytes, (file) => {
    const rows = succeed('pdffonts', [file])
      .stdout.split('\n')
      .slice(2)
      .filter((row) => row.trim() !== '');
    return rows.map((row) => {
      // Columns from the right: object, generation, unicode, subset, embedded.
      const cells = row.trim().split(/\s+/);
      if (cells.at(-5) !== 'yes') throw new Error(`font not embedded: ${row}`);
      return cells[0]!;
    });
  });
}

/** The file with its streams laid open and its tables rewritten, for reading or changing its bytes as text (qpdf). */
export function unpack(bytes: Uint8Array): Buffer {
  return withFile(bytes, (file, folder) => {
    const out = join(folder, 'open.pdf');
    succeed('qpdf', ['--qdf', '--static-id', '--object-streams=disable', file, out]);
    return readFileSync(out);
  });
}

/** Ends of straight strokes, in page points with y down, as mupdf draws them: another reader's word for ours (float32). */
export function tracedPoints(bytes: Uint8Array, page: number): { readonly x: number; readonly y: number }[] {
  return withFile(bytes, (file) => {
    const { stdout } = succeed('mutool', ['trace', file, String(page)]);
    return [
      ...stdout.matchAll(/<stroke_path[^>]*transform="([^"]+)"[^>]*>([\s\S]*?)<\/stroke_path>/g),
    ].flatMap(([, transform, body]) => {
      const [a, b, c, d, e, f] = transform!.split(' ').map(Number) as [
        number,
        number,
        number,
        number,
        number,
        number,
      ];
      return [...body!.matchAll(/<(?:moveto|lineto) x="([^"]+)" y="([^"]+)"/g)].map(([, sx, sy]) => {
        const [x, y] = [Number(sx), Number(sy)];
        return { x: a * x + c * y + e, y: b * x + d * y + f };
      });
    });
  });
}

/** One page as a grey image: width, height and rows of darkness from the top, 0 black to 255 white (poppler). */
export function renderPage(
  bytes: Uint8Array,
  page: number,
  dpi: number,
): { width: number; height: number; grey: Buffer } {
  return withFile(bytes, (file, folder) => {
    const root = join(folder, 'page');
    succeed('pdftoppm', [
      '-r',
      String(dpi),
      '-gray',
      '-singlefile',
      '-f',
      String(page),
      '-l',
      String(page),
      file,
      root,
    ]);
    const pgm = readFileSync(`${root}.pgm`);
    const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(pgm.subarray(0, 64).toString('latin1'));
    if (!head) throw new Error('pdftoppm wrote no PGM');
    return { width: Number(head[1]), height: Number(head[2]), grey: pgm.subarray(head[0].length) };
  });
}

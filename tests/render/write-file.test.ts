import { execFileSync, spawnSync } from 'node:child_process';
import { chmodSync, lstatSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync, symlinkSync, writeFileSync } from 'node:fs'; // prettier-ignore
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { UserError } from '../../src/issue.ts';
import { ownerTag } from '../../src/render/owner.ts';
import { writeFile } from '../../src/render/write-file.ts';

let folder = '';
beforeEach(() => (folder = mkdtempSync(join(tmpdir(), 'soapstone-'))));
afterEach(() => rmSync(folder, { recursive: true }));

const failureOf = async (run: Promise<void>): Promise<UserError> => {
  const error: unknown = await run.then(
    () => undefined,
    (reason: unknown) => reason,
  );
  expect(error).toBeInstanceOf(UserError);
  return error as UserError;
};

async function* pieces(count: number, fail = false) {
  for (let i = 0; i < count; i++) yield new TextEncoder().encode(`${i};`);
  if (fail) throw new Error('the drawing failed');
}

test('writes text, bytes and pieces, and leaves nothing else behind', async () => {
  await writeFile(join(folder, 'a'), 'ä\r\n');
  await writeFile(join(folder, 'b'), new Uint8Array([1, 2, 3]));
  await writeFile(join(folder, 'c'), pieces(3));
  expect(readFileSync(join(folder, 'a'), 'utf8')).toBe('ä\r\n');
  expect([...readFileSync(join(folder, 'b'))]).toEqual([1, 2, 3]);
  expect(readFileSync(join(folder, 'c'), 'utf8')).toBe('0;1;2;');
  expect(readdirSync(folder)).toEqual(['a', 'b', 'c']);
});

test('replaces a file, keeping its permissions, and follows a link', async () => {
  const [file, link] = [join(folder, 'real'), join(folder, 'link')];
  writeFileSync(file, 'old, and longer than the new');
  chmodSync(file, 0o640);
  symlinkSync('real', link);
  await writeFile(link, 'new');
  expect(readFileSync(file, 'utf8')).toBe('new');
  expect(statSync(file).mode & 0o777).toBe(0o640);
  expect(readdirSync(folder)).toEqual(['link', 'real']);
});

test('when the content fails half-way the old file stays and no draft is left', async () => {
  const file = join(folder, 'a');
  writeFileSync(file, 'old');
  await expect(writeFile(file, pieces(3, true))).rejects.toThrow('the drawing failed');
  expect(readFileSync(file, 'utf8')).toBe('old');
  await expect(writeFile(join(folder, 'b'), pieces(3, true))).rejects.toThrow('the drawing failed');
  expect(readdirSync(folder)).toEqual(['a']);
});

test('a missing folder, a folder in the way and a path through a file are file errors naming the file', async () => {
  writeFileSync(join(folder, 'plain'), '');
  mkdirSync(join(folder, 'sub'));
  const cases = [
    [join(folder, 'none', 'a.pdf'), /no such folder/],
    [join(folder, 'sub'), /is a folder/],
    [join(folder, 'plain', 'a.pdf'), /not a folder/],
    [join(folder, `${'n'.repeat(300)}.pdf`), /too long/],
  ] as const;
  for (const [file, reason] of cases) {
    const error = await failureOf(writeFile(file, 'x'));
    expect(error.failure).toBe('file');
    expect(error.message).toContain(file);
    expect(error.message).toMatch(reason);
    expect(error.issues[0]!.hint).not.toBe('');
  }
  expect(readdirSync(folder).toSorted()).toEqual(['plain', 'sub']);
});

test('a folder or file without the right to write is a file error', () => {
  const [closed, sealed] = [join(folder, 'closed'), join(folder, 'a')];
  mkdirSync(closed);
  writeFileSync(sealed, 'old');
  chmodSync(sealed, 0o444);
  chmodSync(folder, 0o755);
  chmodSync(closed, 0o555);
  for (const file of [join(closed, 'a'), sealed]) {
    const told = writeAsNobody(file);
    expect(told).toMatch(/^file: .*no permission to write/);
    expect(told).toContain(file);
  }
  expect(readFileSync(sealed, 'utf8')).toBe('old');
  expect(readdirSync(closed)).toEqual([]);
});

/**
 * What a user without special rights is told. The superuser, as whom tests may run, may write anywhere, and gives his rights up
 * when all is loaded, since others may not be let into the folder of these sources.
 */
const writeAsNobody = (file: string): string => {
  const source = new URL('../../src/render/write-file.ts', import.meta.url).href;
  const program = `import { writeFile } from '${source}';
    if (process.getuid() === 0) { process.setgroups([]); process.setegid(65534); process.seteuid(65534); }
    await writeFile(process.argv[1], 'x').catch((error) => console.log(error.failure + ': ' + error.message));`;
  const options = ['--import', 'tsx', '--input-type=module', '-e', program, file];
  return execFileSync(process.execPath, options, { encoding: 'utf8' });
};

test('a link whose end is not there yet is written through', async () => {
  symlinkSync('second', join(folder, 'first'));
  symlinkSync('real', join(folder, 'second'));
  await writeFile(join(folder, 'first'), 'new');
  expect(readFileSync(join(folder, 'real'), 'utf8')).toBe('new');
  expect(lstatSync(join(folder, 'first')).isSymbolicLink()).toBe(true);
  symlinkSync('b', join(folder, 'a'));
  symlinkSync('a', join(folder, 'b'));
  expect((await failureOf(writeFile(join(folder, 'a'), 'x'))).message).toMatch(/links lead in a circle/);
});

test('what a killed run has left of a file is removed, what a running one is writing is not', async () => {
  const draft = (pid: number) => ownerTag.replace(/\d+$/, String(pid));
  const gone = spawnSync(process.execPath, ['-e', '']).pid;
  const [stray, live] = [gone, process.ppid].map((pid) => `.soapstone-${draft(pid)}-0123456789ab.part`);
  for (const name of [stray!, live!]) writeFileSync(join(folder, name), 'half');
  await writeFile(join(folder, 'a'), 'x');
  expect(readdirSync(folder)).toEqual([live, 'a']);
});

test('a full disk is a file error', async () => {
  expect((await failureOf(writeFile('/dev/full', 'x'))).message).toMatch(/disk is full/);
});

import { mkdtempSync, readdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { withLock } from '../../src/jobs/lock.ts';
import { mountDisk, unmountDisk } from '../support/disk.ts';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'soapstone-lock-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

describe('a lock', () => {
  it('lets one at a time in and is gone afterwards', async () => {
    const lock = join(folder, 'one');
    const order: string[] = [];
    const take = (name: string) =>
      withLock(lock, async () => {
        order.push(`${name} in`);
        await Promise.resolve();
        order.push(`${name} out`);
      });
    await Promise.all([take('a'), take('b'), take('c')]);
    for (let i = 0; i < order.length; i += 2) expect(order[i + 1]).toBe(order[i]?.replace('in', 'out'));
    expect(order).toHaveLength(6);
    expect(readdirSync(folder)).toEqual([]);
  });

  it("without its owner's tag, left by a loss of power, holds nobody up", async () => {
    const lock = join(folder, 'empty');
    writeFileSync(lock, '');
    const hourAgo = new Date(Date.now() - 3_600_000);
    utimesSync(lock, hourAgo, hourAgo);
    expect(await withLock(lock, () => Promise.resolve('ran'))).toBe('ran');
    expect(readdirSync(folder)).toEqual([]);
  });

  it('is not left behind where the disk has room for its name alone', async () => {
    const full = join(folder, 'full');
    const why = mountDisk(full, 'size=64k');
    if (why !== undefined) return expect(why).toMatch(/superuser|mounted/);
    try {
      writeFileSync(join(full, 'filler'), new Uint8Array(64 * 1024));
      await expect(withLock(join(full, 'lock'), () => Promise.resolve())).rejects.toMatchObject({
        failure: 'file',
      });
      expect(readdirSync(full)).toEqual(['filler']);
    } finally {
      unmountDisk(full);
      rmSync(full, { recursive: true });
    }
  });
});

import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { withLock } from '../../src/jobs/lock.ts';
import { nameDraft, sweepDrafts } from '../../src/render/drafts.ts';
import { ownerTag } from '../../src/render/owner.ts';
import { mountDisk, unmountDisk } from '../support/disk.ts';

// Judging an owner takes each its own time here, as it does on a busy machine: what was judged may be another's by then.
vi.mock(import('../../src/render/owner.ts'), async (load) => {
  const real = await load();
  let calls = 0;
  const isOrphan = async (...about: Parameters<typeof real.isOrphan>): Promise<boolean> => {
    const answer = await real.isOrphan(...about);
    await wait((calls++ * 7) % 31);
    return answer;
  };
  return { ...real, isOrphan };
});

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'soapstone-lock-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** The name of a draft of a program that has ended. */
const nameOrphan = (): string => {
  const { pid } = spawnSync(process.execPath, ['--version']);
  return nameDraft().replace(ownerTag, ownerTag.replace(/\d+$/, String(pid)));
};

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

  it('of a program that was killed is taken over by one of those who wait, and by one at a time', async () => {
    const lock = join(folder, 'killed');
    mkdirSync(lock);
    writeFileSync(join(lock, nameOrphan()), '');
    let inside = 0;
    const most: number[] = [];
    const take = () =>
      withLock(lock, async () => {
        inside++;
        await wait(2);
        most.push(inside);
        inside--;
      });
    await Promise.all(Array.from({ length: 40 }, take));
    expect(most).toEqual(Array.from({ length: 40 }, () => 1));
    expect(readdirSync(folder)).toEqual([]);
  });

  it('that a loss of power left without a claim holds nobody up', async () => {
    const lock = join(folder, 'empty');
    mkdirSync(lock);
    expect(await withLock(lock, () => Promise.resolve('ran'))).toBe('ran');
    expect(readdirSync(folder)).toEqual([]);
  });

  it('that was waited for by a program that was killed leaves nothing for long', async () => {
    const waited = join(folder, nameOrphan());
    mkdirSync(waited);
    writeFileSync(join(waited, 'claim'), '');
    await sweepDrafts(folder);
    expect(readdirSync(folder)).toEqual([]);
  });

  it('is not left behind where the disk has room for its folder alone', async () => {
    const full = join(folder, 'full');
    const why = mountDisk(full, 'size=64k,nr_inodes=2');
    if (why !== undefined) return expect(why).toMatch(/superuser|mounted/);
    try {
      await expect(withLock(join(full, 'lock'), () => Promise.resolve())).rejects.toMatchObject({
        failure: 'file',
      });
      expect(readdirSync(full)).toEqual([]);
    } finally {
      unmountDisk(full);
      rmSync(full, { recursive: true });
    }
  });
});

import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';

/** A small disk in memory mounted on a folder, or why there is none: it takes the superuser, and a system that lets him. */
export const mountDisk = (folder: string, options: string): string | undefined => {
  if (process.getuid?.() !== 0) return 'mounting takes the superuser';
  mkdirSync(folder, { recursive: true });
  const { status, stderr } = spawnSync('mount', ['-t', 'tmpfs', '-o', options, 'tmpfs', folder], {
    encoding: 'utf8',
  });
  return status === 0 ? undefined : `no disk can be mounted here: ${stderr?.trim() ?? 'there is no mount'}`;
};

/** Takes the disk off again, whoever still has files open on it. */
export const unmountDisk = (folder: string): void => {
  spawnSync('umount', ['-l', folder]);
};

import { fork, type ChildProcess } from 'node:child_process';
import type { FuzzRequest } from './requests.ts';
import type { Tried } from './worker.ts';

/** Most processor time a request may take, and the most memory the process that tries it may hold. */
export const mostMs = 2000;
export const mostMegabytes = 512;
/** Longest that is waited for an answer, ms: others may share the machine. */
const patience = 180_000;
/** What is left to the engine's heap, the rest being code, stacks and buffers; on one thread it collects with less processor time. */
const options = ['--max-old-space-size=256', '--max-semi-space-size=32', '--single-threaded-gc'];

/** What became of a request: `printed`, `refused` or what is wrong, and what it took. */
export interface Outcome {
  readonly what: string;
  readonly ms: number;
  readonly megabytes: number;
}

/** Tries requests one after another in a process that is begun again when one of them ended or swelled it. */
export class Trier {
  private child: ChildProcess | undefined;

  constructor(private readonly program: string) {}

  close(): void {
    this.child?.kill('SIGKILL');
    this.child = undefined;
  }

  private tryOnce(request: FuzzRequest): Promise<Tried> {
    return new Promise((resolve) => {
      const child = (this.child ??= fork(this.program, {
        execArgv: options,
        stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
      }));
      const finish = (tried: Tried): void => {
        clearTimeout(timer);
        child.off('message', finish).off('exit', leave);
        resolve(tried);
      };
      const lose = (what: string): void => {
        this.close();
        finish({ result: { kind: 'defect', what }, ms: Infinity, megabytes: Infinity });
      };
      const leave = (code: number | null, signal: string | null): void => lose(`ended: ${signal ?? code}`);
      const timer = setTimeout(() => lose(`no answer within ${patience} ms`), patience);
      child.on('message', finish).on('exit', leave);
      child.send(request);
    });
  }

  /**
   * Tries a request, and again where it took too long or too much: the first of a kind pays for the engine's compiling, and
   * what a process holds is what all before it left. The last try is in a new process.
   */
  async try(request: FuzzRequest): Promise<Outcome> {
    let least = { ms: Infinity, megabytes: Infinity };
    for (let i = 0; i < 3; i++) {
      const { result, ms, megabytes } = await this.tryOnce(request);
      if (megabytes > mostMegabytes) this.close();
      least = { ms: Math.min(least.ms, ms), megabytes: Math.min(least.megabytes, megabytes) };
      if (result.kind === 'defect') return { what: result.what, ...least };
      if (least.ms <= mostMs && least.megabytes <= mostMegabytes) return { what: result.kind, ...least };
    }
    return {
      what: `${Math.round(least.ms)} ms of processor time, ${Math.round(least.megabytes)} MB`,
      ...least,
    };
  }
}

/** True for an outcome that is wrong. */
export const isDefect = ({ what }: Outcome): boolean => what !== 'printed' && what !== 'refused';

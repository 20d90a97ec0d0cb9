import { describe, expect, it } from 'vitest';
import { showProgress } from '../../src/cli/progress.ts';

/** A terminal that keeps what is written, and a clock of its own. */
const makeTerminal = (isTTY: boolean, columns = 80) => {
  const lines: string[] = [];
  let time = 0;
  return {
    lines,
    terminal: { isTTY, columns, write: (text: string) => lines.push(text.replace('\r\x1b[K', '')) },
    now: () => time,
    wait: (ms: number) => {
      time += ms;
    },
  };
};

describe('progress', () => {
  it('tells the time left at the pace of the pieces made, leaving out those that were done before', () => {
    const { lines, terminal, now, wait } = makeTerminal(true);
    const progress = showProgress(100, terminal, now);
    for (let i = 0; i < 40; i++) progress.step(false);
    wait(2000);
    progress.step(true);
    // One piece took 2 s, 59 are left: 118 s.
    expect(lines[lines.length - 1]).toBe('41 of 100 pieces, 2 min 0 s left');
    wait(4000);
    progress.step(true);
    expect(lines[lines.length - 1]).toBe('42 of 100 pieces, 2 min 50 s left');
    progress.clear();
    expect(lines[lines.length - 1]).toBe('');
  });

  it.each([
    [10, '9 s'],
    [30_000, '7 h 30 min'],
  ])('writes %d ms a piece', (ms, left) => {
    const { lines, terminal, now, wait } = makeTerminal(true);
    const progress = showProgress(901, terminal, now);
    wait(ms);
    progress.step(true);
    expect(lines).toEqual([`1 of 901 pieces, ${left} left`]);
  });

  it('is written at most ten times a second, and the last step always', () => {
    const { lines, terminal, now, wait } = makeTerminal(true);
    const progress = showProgress(1000, terminal, now);
    for (let i = 0; i < 1000; i++) {
      wait(1);
      progress.step(true);
    }
    expect(lines.length).toBeLessThanOrEqual(12);
    expect(lines[lines.length - 1]).toBe('1000 of 1000 pieces');
  });

  it('keeps within the line, and is not written where there is no terminal', () => {
    const narrow = makeTerminal(true, 12);
    showProgress(9, narrow.terminal, narrow.now).step(true);
    expect(narrow.lines[0]).toHaveLength(11);
    const none = makeTerminal(false);
    const progress = showProgress(9, none.terminal, none.now);
    progress.step(true);
    progress.tell('x');
    progress.clear();
    expect(none.lines).toEqual([]);
  });
});

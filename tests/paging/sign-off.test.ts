import { describe, expect, it } from 'vitest';
import { identify } from '../../src/identity.ts';
import { makeBook, makeSheets, readRequest, type Texts } from '../../src/index.ts';
import { textsOf } from './page-checks.ts';

const wordsOf = (layout: string, texts: Texts): string =>
  makeBook(readRequest(layout, texts)).pages.flatMap(textsOf).join(' ');

const caution = 'The steel decides, not the paper';

describe('what a sheet says of its stock', () => {
  it.each<[string, Texts]>([
    ['band', { pipe: 'DN 150 sch 40' }],
    ['miter', { pipe: 'DN 50 sch 40', cut: '22.5' }],
    ['branch', { branch: 'NPS 2 sch 40', header: 'NPS 4 sch 40' }],
    ['orange-peel', { pipe: 'NPS 6 sch 40' }],
  ])('%s %j: pipe, signed for', (layout, texts) => {
    const words = wordsOf(layout, texts);
    expect(words).toContain(caution);
    for (const label of ['Girth measured', 'Heat number', 'Checked by']) expect(words).toContain(label);
  });

  it.each<[string, Texts]>([
    ['plate', { shape: 'disc', diameter: '100mm' }],
    ['square', { length: '3m', width: '2m' }],
    ['miter', { pipe: 'DN 300 sch 40', cut: '22.5', 'made-from': 'plate' }],
    ['top-center', {}],
    ['pad', { branch: 'NPS 2 sch 40', header: 'NPS 6 sch 40', width: '40mm' }],
  ])('%s %j: not signed for', (layout, texts) => {
    const words = wordsOf(layout, texts);
    expect(words).toContain(caution);
    expect(words).not.toContain('Heat number');
  });
});

describe('the identity', () => {
  const of = (texts: Texts): string => {
    const request = readRequest('band', { pipe: 'DN 50 sch 40', piece: 'B1', ...texts });
    return identify(request.understood, makeSheets(request));
  };

  it('is the piece’s, whichever printer it is made true on, and still when it is out of use', () => {
    const calibration = '99.3% across, 100.4% along, 2026-03-14';
    expect(of({ printer: 'shop laser', calibration })).toBe(of({}));
    expect(of({ 'superseded-by': 'rev C' })).toBe(of({}));
    expect(of({ printer: 'none' })).toBe(of({}));
  });

  it('changes with the piece and what is said of it', () => {
    const changes: Texts[] = [
      { revision: 'B' },
      { piece: 'B2' },
      { supersedes: 'A' },
      { pipe: 'DN 65 sch 40' },
    ];
    for (const texts of changes) expect(of(texts)).not.toBe(of({}));
  });

  it('stands on a print that is out of use, over a plain word not to cut by it', () => {
    const words = wordsOf('band', { pipe: 'DN 50 sch 40', piece: 'B1', 'superseded-by': 'rev C' });
    expect(words).toContain('SUPERSEDED BY rev C. DO NOT CUT BY THIS PRINT.');
    expect(words).toContain(of({}));
  });
});

import { readExample } from '../support/example.ts';
import { describe, expect, it } from 'vitest';
import { layouts } from '../../src/layouts/registry.ts';
import { paginate } from '../../src/paging/paginate.ts';
import { parsePaper } from '../../src/paging/paper.ts';
import { readRequest } from '../../src/request.ts';
import { findCodeFaults, findCollisions, findInkInMargins, scaleLengths } from './page-checks.ts';

const cases = layouts.flatMap(({ id, examples }) => examples.map((example) => [id, example] as const));

describe.each(cases)('%s: %s', (id, example) => {
  it.each(['letter', 'a4', 'a3'])(
    'on %s nothing overlaps, nothing is in the margins, checks are true',
    (paper) => {
      const { layout, values, setting, paging } = readRequest(id, readExample(example));
      const options = { ...paging, paper: parsePaper(paper), identity: '7F3K-29QD' };
      const { pages, sheets } = paginate(layout.draw(values, setting), options);
      const firsts = sheets.map((sheet) => sheet.pages[0]);
      expect(pages.flatMap((page, i) => findCodeFaults(page, firsts.includes(i + 1)))).toEqual([]);
      expect(pages.flatMap(findCollisions)).toEqual([]);
      expect(pages.flatMap((page) => findInkInMargins(page, options))).toEqual([]);
      for (const page of pages)
        for (const axis of ['x', 'y'] as const)
          for (const length of [100, 101.6])
            expect(scaleLengths(page, axis).some((found) => Math.abs(found - length) < 1e-9)).toBe(true);
    },
  );
});

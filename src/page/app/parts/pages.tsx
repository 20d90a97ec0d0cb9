import { useSignal } from '@preact/signals';
import type { JSX } from 'preact';
import { useEffect } from 'preact/hooks';
import type { BookView, PageView } from '../../core/views.ts';
import { asked, book, layPages } from '../state.ts';
import { Still } from './still.tsx';
import { Tabs } from './tabs.tsx';
import { Zoomable } from './zoomable.tsx';
import { say } from '../../../words/say.ts';

const words = () => ({
  laying: say`Laying out the pages …`,
  ways: say`How the pages are shown`,
  apart: say`One by one`,
  taped: say`Taped together`,
  page: (n: number, count: number, label: string): string => say`Page ${n} of ${count}: ${label}`,
  assembled: (sheet: string, count: number): string => say`${sheet}, ${count} pages taped together`,
  single: say`Every sheet fits on one page.`,
  back: say`All pages`,
});

/** One share of a sheet on its page. */
interface Share {
  readonly page: PageView;
  readonly view: PageView['views'][number];
}

/** Shares of a drawing are named by row and column; pages of notes are not. */
const isTile = /^\d+\.\d+$/;

/** A sheet's pages where they lie when they are taped: each within its own full-size window, with its edges and its name. */
const tape = (shares: readonly Share[]): PageView['picture'] => {
  const placed = shares.map((share) => ({ ...share, x: -share.view.origin.x, y: share.view.origin.y }));
  const left = Math.min(...placed.map(({ x }) => x));
  const right = Math.max(...placed.map(({ x, page }) => x + page.width));
  const top = Math.min(...placed.map(({ y, page }) => y - page.height));
  const bottom = Math.max(...placed.map(({ y }) => y));
  const move = (share: (typeof placed)[number], inside: string): string =>
    `<g transform="translate(${share.x} ${share.y})">${inside}</g>`;
  const rect = (name: string, { width, height }: PageView): string =>
    `<rect class="${name}" y="${-height}" width="${width}" height="${height}"/>`;
  const under = placed.map((share) => move(share, rect('sheet', share.page)));
  const drawn = placed.map((share, i) => {
    const { minX, maxX, minY, maxY } = share.view.viewport;
    const clip = `<clipPath id="window-${i}"><path d="M${minX} ${-minY}H${maxX}V${-maxY}H${minX}Z"/></clipPath>`;
    return move(share, `${clip}<g clip-path="url(#window-${i})">${share.page.picture.content}</g>`);
  });
  const over = placed.map((share) => {
    const { width, height } = share.page;
    const size = Math.min(width, height) / 12;
    const name = `<text class="label" x="${width / 2}" y="${1.2 * size - height}" font-size="${size}" text-anchor="middle">${share.view.name}</text>`;
    return move(share, rect('edge', share.page) + name);
  });
  const content = [...under, ...drawn, ...over];
  return { view: [left, top, right - left, bottom - top], content: content.join('') };
};

const Apart = ({ pages }: { readonly pages: readonly PageView[] }): JSX.Element => {
  const open = useSignal<number | undefined>(undefined);
  const shown = open.value === undefined ? undefined : pages[open.value];
  if (shown !== undefined)
    return (
      <div class="one-page">
        <button type="button" onClick={() => (open.value = undefined)}>
          {words().back}
        </button>
        <Zoomable
          className="paper"
          picture={shown.picture}
          label={words().page((open.value ?? 0) + 1, pages.length, shown.label)}
        />
      </div>
    );
  return (
    <ol class="pages">
      {pages.map((page, i) => (
        <li key={page.label}>
          <button type="button" class="paper" onClick={() => (open.value = i)}>
            <Still picture={page.picture} label={words().page(i + 1, pages.length, page.label)} />
            <span aria-hidden="true">
              {i + 1} · {page.label}
            </span>
          </button>
        </li>
      ))}
    </ol>
  );
};

const Taped = ({ laid }: { readonly laid: BookView }): JSX.Element => {
  const several = laid.sheets
    .map(({ name, heading }) => ({
      name,
      heading,
      shares: laid.pages.flatMap((page) =>
        page.views
          .filter((view) => view.sheet === name && isTile.test(view.name))
          .map((view): Share => ({ page, view })),
      ),
    }))
    .filter(({ shares }) => shares.length > 1);
  if (several.length === 0) return <p class="note">{words().single}</p>;
  return (
    <div class="taped">
      {several.map(({ name, heading, shares }) => (
        <figure key={name}>
          <Zoomable
            className="paper"
            picture={tape(shares)}
            label={words().assembled(heading, shares.length)}
          />
          <figcaption>{words().assembled(heading, shares.length)}</figcaption>
        </figure>
      ))}
    </div>
  );
};

/** The pages as they come off the printer, one by one or taped together. */
export const Pages = (): JSX.Element => {
  const way = useSignal<'apart' | 'taped'>('apart');
  const request = asked.value;
  useEffect(() => layPages(), [request]);
  const laid = book.value;
  if (laid === undefined) return <p class="note">{words().laying}</p>;
  if (laid.kind === 'refused')
    return <p class="note">{laid.issues.map(({ message }) => message).join(' ')}</p>;
  return (
    <div class="laid">
      {laid.value.pages.length > 1 && (
        <Tabs
          label={words().ways}
          tabs={[
            ['apart', words().apart],
            ['taped', words().taped],
          ]}
          chosen={way.value}
          onChoose={(next) => (way.value = next)}
        />
      )}
      {way.value === 'apart' ? <Apart pages={laid.value.pages} /> : <Taped laid={laid.value} />}
    </div>
  );
};

import { useSignal } from '@preact/signals';
import type { JSX } from 'preact';
import { useEffect } from 'preact/hooks';
import type { BookView, PageView } from '../../core/views.ts';
import { asked, book, layPages } from '../state.ts';
import { Still } from './still.tsx';
import { Tabs } from './tabs.tsx';
import { Zoomable } from './zoomable.tsx';

const words = {
  laying: 'Laying the pages …',
  ways: 'How the pages are shown',
  apart: 'One by one',
  taped: 'Taped together',
  page: (n: number, count: number, label: string): string => `Page ${n} of ${count}: ${label}`,
  assembled: (sheet: string, count: number): string => `${sheet}, ${count} pages taped together`,
  single: 'Every sheet of this print goes on one page.',
  back: 'All pages',
};

/** A sheet's pages where they lie when they are taped: each within its own full-size window, with its edges and its name. */
const tape = (pages: readonly PageView[]): BookView['pages'][number]['picture'] => {
  const placed = pages.map((page) => ({ page, x: -page.origin.x, y: page.origin.y }));
  const left = Math.min(...placed.map(({ x }) => x));
  const right = Math.max(...placed.map(({ x, page }) => x + page.width));
  const top = Math.min(...placed.map(({ y, page }) => y - page.height));
  const bottom = Math.max(...placed.map(({ y }) => y));
  const content = placed.map(({ page, x, y }, i) => {
    const { viewport, width, height, label, picture } = page;
    const clip = `<clipPath id="window-${i}"><path d="M${viewport.minX} ${-viewport.minY}H${viewport.maxX}V${-viewport.maxY}H${viewport.minX}Z"/></clipPath>`;
    const size = Math.min(width, height) / 12;
    const name = label.replace(/&/g, '&amp;').replace(/</g, '&lt;');
    return `<g transform="translate(${x} ${y})">${clip}<rect class="sheet" y="${-height}" width="${width}" height="${height}"/><g clip-path="url(#window-${i})">${picture.content}</g><rect class="edge" y="${-height}" width="${width}" height="${height}"/><text class="label" x="${width - size / 2}" y="${size / 2 - height + size}" font-size="${size}" text-anchor="end">${name.replace(/^.* /, '')}</text></g>`;
  });
  return { view: [left, top, right - left, bottom - top], content: content.join('') };
};

const Apart = ({ pages }: { readonly pages: readonly PageView[] }): JSX.Element => {
  const open = useSignal<number | undefined>(undefined);
  const shown = open.value === undefined ? undefined : pages[open.value];
  if (shown !== undefined)
    return (
      <div class="one-page">
        <button type="button" onClick={() => (open.value = undefined)}>
          {words.back}
        </button>
        <Zoomable
          className="paper"
          picture={shown.picture}
          label={words.page((open.value ?? 0) + 1, pages.length, shown.label)}
        />
      </div>
    );
  return (
    <ol class="pages">
      {pages.map((page, i) => (
        <li key={page.label}>
          <button type="button" class="paper" onClick={() => (open.value = i)}>
            <Still picture={page.picture} label={words.page(i + 1, pages.length, page.label)} />
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
    .map((name, sheet) => ({
      name,
      pages: laid.pages.filter((page) => page.sheet === sheet && !page.isNotes),
    }))
    .filter(({ pages }) => pages.length > 1);
  if (several.length === 0) return <p class="note">{words.single}</p>;
  return (
    <div class="taped">
      {several.map(({ name, pages }) => (
        <figure key={name}>
          <Zoomable className="paper" picture={tape(pages)} label={words.assembled(name, pages.length)} />
          <figcaption>{words.assembled(name, pages.length)}</figcaption>
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
  if (laid === undefined) return <p class="note">{words.laying}</p>;
  if (laid.kind === 'refused')
    return <p class="note">{laid.issues.map(({ message }) => message).join(' ')}</p>;
  return (
    <div class="laid">
      {laid.value.pages.length > 1 && (
        <Tabs
          label={words.ways}
          tabs={[
            ['apart', words.apart],
            ['taped', words.taped],
          ]}
          chosen={way.value}
          onChoose={(next) => (way.value = next)}
        />
      )}
      {way.value === 'apart' ? <Apart pages={laid.value.pages} /> : <Taped laid={laid.value} />}
    </div>
  );
};

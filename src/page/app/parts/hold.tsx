import { useSignal } from '@preact/signals';
import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { SheetView } from '../../core/views.ts';
import { say } from '../../../words/say.ts';

const words = () => ({
  close: say`Close`,
  next: say`Next`,
  back: say`Back`,
  of: (n: number, count: number): string => say`${n} of ${count}`,
  title: (heading: string): string => say`${heading}: hold to the work`,
});

/** One figure to be read from arm's length: what it is, and its values under their names. */
interface Card {
  readonly title: string;
  readonly lines: readonly (readonly [name: string, value: string])[];
}

const cardsOf = (sheet: SheetView): readonly Card[] => [
  ...sheet.facts.map((fact): Card => ({ title: sheet.heading, lines: [fact] })),
  ...sheet.tables.flatMap(({ title, header, rows }) =>
    rows.map((row): Card => ({
      title,
      lines: row.flatMap((cell, i) => (cell === '' ? [] : [[header[i] ?? '', cell] as const])),
    })),
  ),
];

/** Keeps the screen lit where the browser can; elsewhere it goes dark as it is set to. */
const stayLit = (): (() => void) => {
  if (!('wakeLock' in navigator)) return () => undefined;
  const held = navigator.wakeLock.request('screen').catch(() => undefined);
  return () => void held.then((lock) => lock?.release());
};

/** The figures one at a time over the whole screen, to be read while both hands are at the pipe. */
export const Hold = ({
  sheet,
  onClose,
}: {
  readonly sheet: SheetView;
  readonly onClose: () => void;
}): JSX.Element => {
  const dialog = useRef<HTMLDialogElement>(null);
  const at = useSignal(0);
  const cards = cardsOf(sheet);
  const card = cards[at.value];
  const go = (by: number): void => {
    at.value = Math.min(cards.length - 1, Math.max(0, at.value + by));
  };
  useEffect(() => {
    dialog.current?.showModal();
    return stayLit();
  }, []);
  return (
    <dialog
      ref={dialog}
      class="hold"
      aria-label={words().title(sheet.heading)}
      onClose={onClose}
      onKeyDown={(event) => {
        if (event.key === 'ArrowRight' || event.key === 'ArrowDown') go(1);
        if (event.key === 'ArrowLeft' || event.key === 'ArrowUp') go(-1);
      }}
    >
      <header>
        <span>
          {card?.title} · {words().of(at.value + 1, cards.length)}
        </span>
        <button type="button" onClick={() => dialog.current?.close()}>
          {words().close}
        </button>
      </header>
      <div class="card" aria-live="polite">
        {card?.lines.map(([name, value], i) => (
          <div key={i} class={i === 0 ? 'first' : ''}>
            <span>{name}</span>
            <strong>{value}</strong>
          </div>
        ))}
      </div>
      <footer>
        <button type="button" disabled={at.value === 0} onClick={() => go(-1)}>
          {words().back}
        </button>
        <button type="button" class="main" disabled={at.value >= cards.length - 1} onClick={() => go(1)}>
          {words().next}
        </button>
      </footer>
    </dialog>
  );
};

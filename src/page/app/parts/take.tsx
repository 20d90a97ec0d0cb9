import { useSignal } from '@preact/signals';
import type { JSX } from 'preact';
import {
  asked,
  book,
  catalogue,
  changePieces,
  changing,
  findPiece,
  issues,
  layout,
  notice,
  tellFault,
} from '../state.ts';
import type { LayoutView } from '../../core/views.ts';
import { core, fonts } from '../link.ts';
import { printBook } from '../print.ts';
import { saveOutcome } from '../save.ts';
import { Share } from './share.tsx';
import { say } from '../../../words/say.ts';

const words = () => ({
  heading: say`Save and print`,
  save: (format: string): string => say`Save ${format}`,
  print: say`Print`,
  printing: say`In the print window: scale 100 % (or Default), margins None, paper as the page. Then lay a steel rule on the 100 mm and 4 in bars, both ways, before you cut.`,
  add: say`Add to the pieces`,
  added: say`Added to the pieces`,
  change: say`Change the piece`,
  changed: say`Piece changed`,
  job: say`Save job file`,
});

const save = async (format: string): Promise<void> => {
  const request = asked.value;
  if (request === undefined) return;
  await fonts;
  await saveOutcome((await core).write(request, format));
};

const printNow = async (): Promise<void> => {
  const request = asked.value;
  if (request === undefined) return;
  const laid = await (await core).layPages(request);
  book.value = laid;
  if (laid.kind === 'done') await printBook(laid.value);
  else issues.value = laid.issues;
};

const saveJob = async (): Promise<void> => {
  const request = asked.value;
  if (request !== undefined) await saveOutcome((await core).writeJobFile([request], `${request.layout}.pdf`));
};

/** Puts the request in the place of the piece that is being changed, or at the end of the list. */
const add = async (): Promise<void> => {
  const [request, before] = [asked.value, changing.value];
  if (request === undefined) return;
  await changePieces((list) => {
    const at = before === undefined ? -1 : findPiece(list, before);
    return at < 0 ? [...list, request] : list.map((piece, i) => (i === at ? request : piece));
  });
  if (before !== undefined && changing.value === before) changing.value = { ...before, piece: request };
  notice.value = before === undefined ? words().added : words().changed;
};

/** Formats a template can be written in: a mesh only where it makes a body. */
const formatsOf = (view: LayoutView | undefined): readonly string[] =>
  (catalogue.value?.formats ?? []).filter((format) => format !== 'stl' || view?.isBody === true);

/** Everything a request can be taken away as. */
export const Take = (): JSX.Element => {
  const isBusy = useSignal(false);
  const isWrong = issues.value.length > 0;
  const run = (work: () => Promise<void>) => (): void => {
    isBusy.value = true;
    void work()
      .catch(tellFault)
      .finally(() => {
        isBusy.value = false;
      });
  };
  const held = isBusy.value || isWrong;
  return (
    <section class="take" aria-labelledby="take">
      <h2 id="take">{words().heading}</h2>
      <div class="keys">
        {formatsOf(layout.value).map((format, i) => (
          <button
            key={format}
            type="button"
            class={i === 0 ? 'main' : ''}
            disabled={held}
            onClick={run(() => save(format))}
          >
            {words().save(format.toUpperCase())}
          </button>
        ))}
        <button type="button" disabled={held} onClick={run(printNow)}>
          {words().print}
        </button>
        <button type="button" disabled={held} onClick={run(add)}>
          {changing.value === undefined ? words().add : words().change}
        </button>
        <button type="button" disabled={held} onClick={run(saveJob)}>
          {words().job}
        </button>
      </div>
      <p class="help">{words().printing}</p>
      <Share />
    </section>
  );
};

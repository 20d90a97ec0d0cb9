import { useSignal } from '@preact/signals';
import { proxy } from 'comlink';
import type { JSX } from 'preact';
import { useEffect } from 'preact/hooks';
import type { Asked } from '../../core/views.ts';
import { core, fonts } from '../link.ts';
import { OpenFile } from '../parts/open-file.tsx';
import { Telling } from '../parts/telling.tsx';
import { saveOutcome } from '../save.ts';
import { changePieces, findPiece, issues, openPiece, pieces, tellFault } from '../state.ts';
import { captionOf } from '../../../words/captions.ts';
import { say } from '../../../words/say.ts';

const words = () => ({
  heading: say`Pieces`,
  none: say`No pieces yet. Choose a template and add it to the pieces, or open a job file.`,
  choose: say`Choose a template`,
  name: say`Name of the book`,
  book: say`Save one book (PDF)`,
  job: say`Save job file`,
  making: (done: number, count: number): string => say`Piece ${done} of ${count} drawn …`,
  change: say`Open`,
  copy: say`Copy`,
  up: say`Up`,
  remove: say`Remove`,
  clear: say`Remove all`,
  sure: say`Yes, remove all`,
  unmarked: say`no mark`,
});

const tell = ({ texts }: Asked): string =>
  Object.entries(texts)
    .filter(([name]) => name !== 'piece')
    .map(([name, text]) => `${captionOf(name).toLowerCase()} ${[text].flat().join(', ')}`)
    .join(' · ');

const Row = ({ piece, n }: { readonly piece: Asked; readonly n: number }): JSX.Element => {
  const mark = [piece.texts['piece'] ?? words().unmarked].flat()[0];
  const listed = { piece, place: n };
  /** Changes the list where this piece stands; where it is gone, only what is shown. */
  const change = (turn: (list: Asked[], at: number) => void) => (): void => {
    void changePieces((list) => {
      const [next, at] = [[...list], findPiece(list, listed)];
      if (at >= 0) turn(next, at);
      return next;
    }).catch(tellFault);
  };
  return (
    <li>
      <div>
        <strong>
          {n + 1}. {mark} · {captionOf(piece.layout)}
        </strong>
        <p>{tell(piece)}</p>
      </div>
      <div class="keys">
        <button type="button" onClick={() => openPiece(listed)}>
          {words().change}
        </button>
        <button type="button" onClick={change((list, at) => list.splice(at, 0, piece))}>
          {words().copy}
        </button>
        <button
          type="button"
          disabled={n === 0}
          onClick={change((list, at) => list.splice(Math.max(0, at - 1), 0, ...list.splice(at, 1)))}
        >
          {words().up}
        </button>
        <button type="button" onClick={change((list, at) => list.splice(at, 1))}>
          {words().remove}
        </button>
      </div>
    </li>
  );
};

/** The list of pieces, kept on the device, made into one book or a job file. */
export const Pieces = (): JSX.Element => {
  const name = useSignal('pieces');
  const done = useSignal<number | undefined>(undefined);
  const isSure = useSignal(false);
  const list = pieces.value;
  useEffect(() => {
    document.title = `${words().heading} · Soapstone`;
    issues.value = [];
  }, []);
  const file = `${name.value.replace(/\.pdf$/i, '')}.pdf`;
  const makeBook = async (): Promise<void> => {
    [done.value, issues.value] = [0, []];
    await fonts;
    const onPiece = proxy((count: number) => {
      done.value = count;
    });
    await saveOutcome((await core).writeBook(list, file, onPiece));
  };
  const saveJob = async (): Promise<void> => {
    issues.value = [];
    await saveOutcome((await core).writeJobFile(list, file));
  };
  return (
    <main class="list">
      <h1>{words().heading}</h1>
      <Telling issues={issues.value} />
      {list.length === 0 ? (
        <p class="note">{words().none}</p>
      ) : (
        <>
          <div class="row">
            <div class="caption">
              <label for="book-name">{words().name}</label>
            </div>
            <div class="entry">
              <input
                id="book-name"
                type="text"
                value={name.value}
                onInput={(event) => (name.value = event.currentTarget.value)}
              />
            </div>
          </div>
          <div class="keys">
            <button
              type="button"
              class="main"
              disabled={done.value !== undefined}
              onClick={() =>
                void makeBook()
                  .catch(tellFault)
                  .finally(() => (done.value = undefined))
              }
            >
              {words().book}
            </button>
            <button type="button" onClick={() => void saveJob().catch(tellFault)}>
              {words().job}
            </button>
            <button
              type="button"
              onClick={() => {
                if (isSure.value) void changePieces(() => []).catch(tellFault);
                isSure.value = !isSure.value;
              }}
            >
              {isSure.value ? words().sure : words().clear}
            </button>
          </div>
          <p role="status">{done.value === undefined ? '' : words().making(done.value, list.length)}</p>
          <ol class="pieces">
            {list.map((piece, n) => (
              <Row key={n} piece={piece} n={n} />
            ))}
          </ol>
        </>
      )}
      <div class="keys">
        <a class="key" href="#">
          {words().choose}
        </a>
      </div>
      <OpenFile />
    </main>
  );
};

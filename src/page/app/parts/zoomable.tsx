import { useSignal } from '@preact/signals';
import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { Picture } from '../../../render/picture.ts';
import { say } from '../../../words/say.ts';

const words = () => ({ larger: say`Larger`, smaller: say`Smaller`, whole: say`Whole` });

type View = Picture['view'];

/** Most that a drawing is magnified by. */
const most = 60;

/** The view so much larger about a point of the drawing; never larger than the whole, nor moved off it. */
const zoom = (view: View, whole: View, factor: number, at: { x: number; y: number }): View => {
  const width = Math.min(whole[2], Math.max(whole[2] / most, view[2] / factor));
  const share = width / view[2];
  return keepInside(
    [at.x + (view[0] - at.x) * share, at.y + (view[1] - at.y) * share, width, view[3] * share],
    whole,
  );
};

const keepInside = ([x, y, width, height]: View, whole: View): View => [
  Math.min(Math.max(x, whole[0] - width / 2), whole[0] + whole[2] - width / 2),
  Math.min(Math.max(y, whole[1] - height / 2), whole[1] + whole[3] - height / 2),
  width,
  height,
];

const pan = ([x, y, width, height]: View, whole: View, dx: number, dy: number): View =>
  keepInside([x + dx, y + dy, width, height], whole);

const middle = ([x, y, width, height]: View) => ({ x: x + width / 2, y: y + height / 2 });

/** A drawing that is magnified and moved by finger, wheel, buttons or keys (+ − 0 and arrows). */
export const Zoomable = ({
  picture,
  label,
  describedBy,
  className = '',
}: {
  readonly picture: Picture;
  readonly label: string;
  readonly describedBy?: string;
  readonly className?: string;
}): JSX.Element => {
  const whole = picture.view;
  const own = useSignal<View | undefined>(undefined);
  const board = useRef<HTMLDivElement>(null);
  const svg = useRef<SVGSVGElement>(null);
  const fingers = useRef(new Map<number, { x: number; y: number }>());
  const view = own.value ?? whole;
  // Another drawing of nearly the same size keeps the place that is looked at; one of another size is shown whole.
  const size = `${Math.round(Math.log2(whole[2]) * 2)} ${Math.round(Math.log2(whole[3]) * 2)}`;
  useEffect(() => {
    own.value = undefined;
  }, [size]);

  const toDrawing = (x: number, y: number): { x: number; y: number } => {
    const matrix = svg.current?.getScreenCTM();
    if (!matrix) return middle(view);
    const point = new DOMPoint(x, y).matrixTransform(matrix.inverse());
    return { x: point.x, y: point.y };
  };
  const by = (factor: number, at = middle(view)): void => {
    own.value = factor < 1 && view[2] / factor >= whole[2] ? undefined : zoom(view, whole, factor, at);
  };

  useEffect(() => {
    const element = board.current;
    const onWheel = (event: WheelEvent): void => {
      event.preventDefault();
      by(Math.exp(-event.deltaY / 400), toDrawing(event.clientX, event.clientY));
    };
    element?.addEventListener('wheel', onWheel, { passive: false });
    return () => element?.removeEventListener('wheel', onWheel);
  });

  const onMove = (event: PointerEvent): void => {
    const known = fingers.current;
    const before = known.get(event.pointerId);
    if (before === undefined) return;
    const now = { x: event.clientX, y: event.clientY };
    const [from, to] = [toDrawing(before.x, before.y), toDrawing(now.x, now.y)];
    const other = [...known].find(([id]) => id !== event.pointerId)?.[1];
    known.set(event.pointerId, now);
    if (other !== undefined) {
      const apart = Math.hypot(before.x - other.x, before.y - other.y);
      by(Math.hypot(now.x - other.x, now.y - other.y) / Math.max(1, apart), toDrawing(other.x, other.y));
    } else if (own.value !== undefined) own.value = pan(view, whole, from.x - to.x, from.y - to.y);
  };
  const lift = (event: PointerEvent): void => {
    fingers.current.delete(event.pointerId);
  };
  const onKey = (event: KeyboardEvent): void => {
    const step = view[2] / 8;
    const moves = new Map<string, () => unknown>([
      ['+', () => by(1.5)],
      ['=', () => by(1.5)],
      ['-', () => by(1 / 1.5)],
      ['0', () => (own.value = undefined)],
      ['ArrowLeft', () => (own.value = pan(view, whole, -step, 0))],
      ['ArrowRight', () => (own.value = pan(view, whole, step, 0))],
      ['ArrowUp', () => (own.value = pan(view, whole, 0, -step))],
      ['ArrowDown', () => (own.value = pan(view, whole, 0, step))],
    ]);
    const move = moves.get(event.key);
    if (move === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    move();
  };

  return (
    <div class={`zoomable ${className}`}>
      <div
        ref={board}
        class={`board${own.value === undefined ? '' : ' close-up'}`}
        role="application"
        aria-label={label}
        aria-describedby={describedBy}
        tabIndex={0}
        onKeyDown={onKey}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          fingers.current.set(event.pointerId, { x: event.clientX, y: event.clientY });
        }}
        onPointerMove={onMove}
        onPointerUp={lift}
        onPointerCancel={lift}
      >
        <svg
          ref={svg}
          class="drawing"
          viewBox={view.join(' ')}
          role="img"
          aria-label={label}
          dangerouslySetInnerHTML={{ __html: picture.content }}
        />
      </div>
      <div class="zoom-keys">
        <button type="button" aria-label={words().larger} title={words().larger} onClick={() => by(1.5)}>
          +
        </button>
        <button
          type="button"
          aria-label={words().smaller}
          title={words().smaller}
          onClick={() => by(1 / 1.5)}
        >
          −
        </button>
        {own.value !== undefined && (
          <button type="button" onClick={() => (own.value = undefined)}>
            {words().whole}
          </button>
        )}
      </div>
    </div>
  );
};

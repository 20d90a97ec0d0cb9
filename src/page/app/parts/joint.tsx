import { useSignal } from '@preact/signals';
import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { JointView } from '../../core/views.ts';
import { asked, joint, light, makeJoint } from '../state.ts';
import { openSpace, type Look, type Space } from '../space.ts';
import { sentence } from '../words.ts';
import { say } from '../../../words/say.ts';

const words = () => ({
  wait: say`Building the 3D view …`,
  none: say`This template has no 3D view. Its pictures are under Figures.`,
  noGraphics: say`This browser cannot show 3D. The pictures of the joint are under Figures.`,
  label: (names: string): string =>
    say`The joint in 3D: ${names}. Arrow keys turn it, plus and minus zoom it.`,
  parts: say`Parts shown`,
  template: (name: string): string => say`Template: ${name}`,
  apart: say`Exploded`,
  larger: say`Larger`,
  smaller: say`Smaller`,
  left: say`Turn left`,
  right: say`Turn right`,
});

const first: Look = { turn: -0.6, raise: 0.4, zoom: 1, apart: 0, hidden: new Set() };
const step = Math.PI / 12;
const steepest = Math.PI / 2;

const turned = (look: Look, turn: number, raise: number): Look => ({
  ...look,
  turn: look.turn + turn,
  raise: Math.min(steepest, Math.max(-steepest, look.raise + raise)),
});
const magnified = (look: Look, factor: number): Look => ({
  ...look,
  zoom: Math.min(20, Math.max(0.4, look.zoom * factor)),
});

const keys: ReadonlyMap<string, (look: Look) => Look> = new Map([
  ['ArrowLeft', (look: Look) => turned(look, -step, 0)],
  ['ArrowRight', (look: Look) => turned(look, step, 0)],
  ['ArrowUp', (look: Look) => turned(look, 0, step)],
  ['ArrowDown', (look: Look) => turned(look, 0, -step)],
  ['+', (look: Look) => magnified(look, 1.25)],
  ['=', (look: Look) => magnified(look, 1.25)],
  ['-', (look: Look) => magnified(look, 0.8)],
  ['0', () => first],
]);

/** Fingers and mouse: one turns, two magnify. */
const usePointers = (change: (next: (look: Look) => Look) => void) => {
  const fingers = useRef(new Map<number, { x: number; y: number }>());
  const lift = (event: PointerEvent): void => void fingers.current.delete(event.pointerId);
  return {
    onPointerDown: (event: PointerEvent): void => {
      if (event.target instanceof Element) event.target.setPointerCapture(event.pointerId);
      fingers.current.set(event.pointerId, { x: event.clientX, y: event.clientY });
    },
    onPointerMove: (event: PointerEvent): void => {
      const before = fingers.current.get(event.pointerId);
      if (before === undefined) return;
      const now = { x: event.clientX, y: event.clientY };
      const other = [...fingers.current].find(([id]) => id !== event.pointerId)?.[1];
      fingers.current.set(event.pointerId, now);
      const apart = (p: { x: number; y: number }): number =>
        other === undefined ? 1 : Math.max(1, Math.hypot(p.x - other.x, p.y - other.y));
      change((look) =>
        other === undefined
          ? turned(look, (before.x - now.x) / 120, (now.y - before.y) / 120)
          : magnified(look, apart(now) / apart(before)),
      );
    },
    onPointerUp: lift,
    onPointerCancel: lift,
  };
};

const Parts = ({
  shown,
  look,
  onChange,
}: {
  readonly shown: JointView;
  readonly look: Look;
  readonly onChange: (look: Look) => void;
}): JSX.Element => {
  const toggle = (key: string): void => {
    const hidden = new Set(look.hidden);
    if (!hidden.delete(key)) hidden.add(key);
    onChange({ ...look, hidden });
  };
  const box = (key: string, name: string): JSX.Element => (
    <label key={key} class="flag">
      <input type="checkbox" checked={!look.hidden.has(key)} onChange={() => toggle(key)} />
      <span>{name}</span>
    </label>
  );
  return (
    <fieldset class="parts">
      <legend>{words().parts}</legend>
      {shown.bodies.map(({ id, name }) => box(id, sentence(name)))}
      {shown.wraps.map(({ name }) => box(name, words().template(name)))}
      <label class="apart">
        <span>{words().apart}</span>
        <input
          type="range"
          min="0"
          max="1"
          step="0.05"
          value={look.apart}
          onInput={(event) => onChange({ ...look, apart: Number(event.currentTarget.value) })}
        />
      </label>
    </fieldset>
  );
};

const Turning = ({ shown }: { readonly shown: JointView }): JSX.Element => {
  const canvas = useRef<HTMLCanvasElement>(null);
  const space = useRef<Space | undefined>(undefined);
  const look = useSignal(first);
  const isBlind = useSignal(false);
  const change = (next: (look: Look) => Look): void => {
    look.value = next(look.value);
  };
  useEffect(() => {
    if (canvas.current === null) return undefined;
    try {
      space.current = openSpace(canvas.current);
    } catch {
      // Browsers without WebGL say so here; the views in words and lines remain.
      isBlind.value = true;
      return undefined;
    }
    const watch = new ResizeObserver(() => space.current?.draw(look.peek()));
    watch.observe(canvas.current);
    return () => {
      watch.disconnect();
      space.current?.close();
    };
  }, []);
  useEffect(() => {
    space.current?.show(shown);
    space.current?.draw(look.peek());
  }, [shown, light.value, isBlind.value]);
  useEffect(() => {
    const frame = requestAnimationFrame(() => space.current?.draw(look.value));
    return () => cancelAnimationFrame(frame);
  }, [look.value]);
  const pointers = usePointers(change);
  const key = (label: string, sign: string, next: (look: Look) => Look): JSX.Element => (
    <button type="button" aria-label={label} title={label} onClick={() => change(next)}>
      {sign}
    </button>
  );
  if (isBlind.value) return <p class="note">{words().noGraphics}</p>;
  const names = [...shown.bodies, ...shown.wraps].map(({ name }) => name).join(', ');
  return (
    <div class="joint">
      <div class="zoomable">
        <div
          class="board close-up"
          role="application"
          aria-label={words().label(names)}
          tabIndex={0}
          onKeyDown={(event) => {
            const next = keys.get(event.key);
            if (next === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
            event.preventDefault();
            change(next);
          }}
          onWheel={(event) => {
            event.preventDefault();
            change((before) => magnified(before, Math.exp(-event.deltaY / 400)));
          }}
          {...pointers}
        >
          <canvas ref={canvas} aria-hidden="true" />
        </div>
        <div class="zoom-keys">
          {key(words().left, '↺', (before) => turned(before, -step, 0))}
          {key(words().right, '↻', (before) => turned(before, step, 0))}
          {key(words().larger, '+', (before) => magnified(before, 1.25))}
          {key(words().smaller, '−', (before) => magnified(before, 0.8))}
        </div>
      </div>
      <Parts shown={shown} look={look.value} onChange={(next) => (look.value = next)} />
    </div>
  );
};

/** What is made, in space, with its templates on it: turned by finger or keys, parts on and off, taken apart. */
export const Joint = (): JSX.Element => {
  const request = asked.value;
  useEffect(() => makeJoint(), [request]);
  const made = joint.value;
  if (made === undefined) return <p class="note">{words().wait}</p>;
  if (made.kind === 'refused')
    return <p class="note">{made.issues.map(({ message }) => message).join(' ')}</p>;
  if (made.value === undefined) return <p class="note">{words().none}</p>;
  return <Turning shown={made.value} />;
};

import type { JSX } from 'preact';
import type { FieldKind } from '../../../fields/field.ts';
import { say } from '../../../words/say.ts';

const words = () => ({ keys: say`More keys`, put: (sign: string): string => say`Type ${sign}` });

/** Signs that lengths and angles are written with and a phone's figures lack. */
const signs: Partial<Readonly<Record<FieldKind, readonly string[]>>> = {
  length: ['″', '′', '/', '-', ' ', ' mm'],
  angle: ['°', '′', ':', '-'],
};
const names = () =>
  new Map([
    [' ', say`space`],
    ['″', say`inch`],
    ['′', say`foot or minute`],
    ['°', say`degree`],
  ]);

/** Puts a sign where the field's cursor is, as if it were typed. */
const put = (field: string, sign: string): void => {
  const input = document.getElementById(field);
  if (!(input instanceof HTMLInputElement)) return;
  const at = input.selectionStart ?? input.value.length;
  input.setRangeText(sign, at, input.selectionEnd ?? at, 'end');
  input.dispatchEvent(new Event('input', { bubbles: true }));
  input.focus();
};

/** A row of large keys under a field, shown on touch screens while the field is in use. */
export const SignKeys = ({
  kind,
  field,
}: {
  readonly kind: FieldKind;
  readonly field: string;
}): JSX.Element | null => {
  const own = signs[kind];
  if (own === undefined) return null;
  return (
    <div class="signs" role="group" aria-label={words().keys}>
      {own.map((sign) => (
        <button
          key={sign}
          type="button"
          tabIndex={-1}
          aria-label={words().put(names().get(sign) ?? sign.trim())}
          onPointerDown={(event) => {
            event.preventDefault();
            put(field, sign);
          }}
        >
          {sign === ' ' ? '␣' : sign.trim()}
        </button>
      ))}
    </div>
  );
};

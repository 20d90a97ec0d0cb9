import type { JSX } from 'preact';
import type { Picture } from '../../../render/picture.ts';

/** A drawing that stands still. Without a label it is decoration beside words that say the same. */
export const Still = ({
  picture,
  label,
}: {
  readonly picture: Picture;
  readonly label?: string;
}): JSX.Element => (
  <svg
    class="drawing"
    viewBox={picture.view.join(' ')}
    role={label === undefined ? undefined : 'img'}
    aria-label={label}
    aria-hidden={label === undefined}
    dangerouslySetInnerHTML={{ __html: picture.content }}
  />
);

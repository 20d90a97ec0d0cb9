import { useSignal } from '@preact/signals';
import type { JSX } from 'preact';
import { renderSVG } from 'uqr';
import { asked, notice } from '../state.ts';
import { writeAddress } from '../address.ts';
import { say } from '../../../words/say.ts';

const words = () => ({
  heading: say`Share`,
  copy: say`Copy the link`,
  copied: say`Link copied`,
  notCopied: say`This browser does not let the page copy. Copy the text under the code by hand.`,
  show: say`Show a code to scan`,
  hide: say`Hide the code`,
  code: say`QR code of this request`,
  served: say`Another phone opens this request by scanning it.`,
  fromFile: say`This page is a file on this device, so the code holds the request alone: scan it, open the page on the other device, and put the text after the page’s address.`,
});

/** The part of a link that holds the request as it stands, which the page's own address may not show yet. */
const requestPart = (): string => (asked.value === undefined ? '' : writeAddress(asked.value));

/** The link of the request as it stands; only its own part where the page is a file. */
const linkOf = (): string =>
  location.protocol === 'file:' ? requestPart() : `${location.origin}${location.pathname}${requestPart()}`;

/** A link to this request, to be copied or scanned. */
export const Share = (): JSX.Element => {
  const isShown = useSignal(false);
  const link = linkOf();
  const copy = async (): Promise<void> => {
    try {
      await navigator.clipboard.writeText(location.href.replace(/#.*$/, '') + requestPart());
      notice.value = words().copied;
    } catch {
      // Where the page is served over plain http a browser has no clipboard for it, and others ask first.
      isShown.value = true;
      notice.value = words().notCopied;
    }
  };
  const code = isShown.value ? renderSVG(link, { border: 2 }) : '';
  return (
    <div class="share">
      <h3>{words().heading}</h3>
      <div class="keys">
        <button type="button" onClick={() => void copy()}>
          {words().copy}
        </button>
        <button type="button" aria-expanded={isShown.value} onClick={() => (isShown.value = !isShown.value)}>
          {isShown.value ? words().hide : words().show}
        </button>
      </div>
      {isShown.value && (
        <figure class="code">
          <div role="img" aria-label={words().code} dangerouslySetInnerHTML={{ __html: code }} />
          <figcaption>
            {location.protocol === 'file:' ? words().fromFile : words().served}
            <br />
            <code>{link}</code>
          </figcaption>
        </figure>
      )}
    </div>
  );
};

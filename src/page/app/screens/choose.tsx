import { useSignal } from '@preact/signals';
import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { searchLayouts } from '../../../fields/search.ts';
import type { Picture } from '../../../render/picture.ts';
import type { LayoutView } from '../../core/views.ts';
import { core } from '../link.ts';
import { OpenFile } from '../parts/open-file.tsx';
import { Still } from '../parts/still.tsx';
import { catalogue, language, recent, tellFault } from '../state.ts';
import { captionOf } from '../../../words/captions.ts';
import { sentence } from '../words.ts';
import { say } from '../../../words/say.ts';

const words = () => ({
  heading: say`What are you making?`,
  search: say`Search: elbow, tee, saddle, bolt circle …`,
  recent: say`Last used`,
  found: (count: number): string => (count === 1 ? say`1 template` : say`${count} templates`),
  none: say`Nothing by that name. Try another word for it.`,
  wait: say`Opening …`,
});

const signs = new Map<string, Picture>();

/** A template's picture, drawn when it first comes into view. */
const Sign = ({ view }: { readonly view: LayoutView }): JSX.Element => {
  const picture = useSignal(signs.get(view.id));
  const place = useRef<HTMLSpanElement>(null);
  useEffect(() => {
    if (picture.value !== undefined || place.current === null) return undefined;
    const draw = async (): Promise<void> => {
      const [texts = {}] = view.examples;
      const drawn = await (
        await core
      ).drawSign({ layout: view.id, texts: { ...texts, language: language.value } });
      if (drawn.kind === 'done') signs.set(view.id, drawn.value);
      picture.value = signs.get(view.id);
    };
    const watch = new IntersectionObserver((seen) => {
      if (!seen.some(({ isIntersecting }) => isIntersecting)) return;
      watch.disconnect();
      void draw().catch(tellFault);
    });
    watch.observe(place.current);
    return () => watch.disconnect();
  }, []);
  return (
    <span ref={place} class="sign" aria-hidden="true">
      {picture.value !== undefined && <Still picture={picture.value} />}
    </span>
  );
};

const List = ({
  views,
  label,
}: {
  readonly views: readonly LayoutView[];
  readonly label?: string;
}): JSX.Element => (
  <ul class="templates" aria-label={label}>
    {views.map((view) => (
      <li key={view.id}>
        <a href={`#${view.id}`}>
          <Sign view={view} />
          <strong>{captionOf(view.id)}</strong>
          <span>{sentence(view.summary)}</span>
        </a>
      </li>
    ))}
  </ul>
);

const Families = ({ layouts }: { readonly layouts: readonly LayoutView[] }): JSX.Element => {
  const families =
    catalogue.value?.families.filter((family) => layouts.some((one) => one.family === family)) ?? [];
  const last = recent.value.flatMap((id) => layouts.find((one) => one.id === id) ?? []);
  return (
    <>
      {last.length > 0 && (
        <section>
          <h2>{words().recent}</h2>
          <List views={last} />
        </section>
      )}
      {families.map((family) => (
        <section key={family}>
          <h2>{sentence(family)}</h2>
          <List views={layouts.filter((one) => one.family === family)} />
        </section>
      ))}
    </>
  );
};

/** All templates by what is to be done, and the search among them. */
export const Choose = (): JSX.Element => {
  const text = useSignal('');
  const layouts = catalogue.value?.layouts;
  useEffect(() => {
    document.title = 'Soapstone';
  }, []);
  if (layouts === undefined)
    return (
      <main>
        <p class="note">{words().wait}</p>
      </main>
    );
  const found = text.value.trim() === '' ? undefined : searchLayouts(text.value, layouts);
  return (
    <main class="choose">
      <h1>{words().heading}</h1>
      <div class="find">
        <input
          type="search"
          aria-label={words().search}
          placeholder={words().search}
          autocomplete="off"
          value={text.value}
          onInput={(event) => (text.value = event.currentTarget.value)}
        />
        <OpenFile />
      </div>
      {found === undefined ? (
        <Families layouts={layouts} />
      ) : (
        <section>
          <h2 aria-live="polite">{found.length === 0 ? words().none : words().found(found.length)}</h2>
          <List views={found} />
        </section>
      )}
    </main>
  );
};

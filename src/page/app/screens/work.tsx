import { useSignal } from '@preact/signals';
import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { Issue } from '../../../issue.ts';
import type { GroupView, InputView, LayoutView, SheetView } from '../../core/views.ts';
import { FieldRow } from '../parts/field-row.tsx';
import { Figures } from '../parts/figures.tsx';
import { Hold } from '../parts/hold.tsx';
import { Joint } from '../parts/joint.tsx';
import { Pages } from '../parts/pages.tsx';
import { Tabs } from '../parts/tabs.tsx';
import { Take } from '../parts/take.tsx';
import { Telling } from '../parts/telling.tsx';
import { Zoomable } from '../parts/zoomable.tsx';
import { drawing, isDrawing, issues, layout, route, texts } from '../state.ts';
import { captionOf } from '../../../words/captions.ts';
import { sentence } from '../words.ts';
import { say } from '../../../words/say.ts';

const words = () => ({
  form: say`What it is for`,
  more: say`More settings`,
  views: say`Views`,
  sheet: say`Sheet`,
  pages: say`Pages`,
  space: '3D',
  figures: say`Figures`,
  which: say`Which sheet`,
  hold: say`Hold to the work`,
  drawing: (heading: string): string => say`${heading}, full-size drawing`,
  last: say`This is the last drawing that could be made. Fix what is marked in the form.`,
  none: say`Nothing to draw yet. Fix what is marked in the form.`,
  wait: say`Drawing …`,
  unknown: (name: string): string => say`There is no template "${name}".`,
  choose: say`Choose another`,
  identity: say`Identity`,
  wrong: (count: number): string => (count === 1 ? say`1 thing to fix` : say`${count} things to fix`),
});

/** Faults of an input, or of the short form that was given in its place. */
const faultsOf = (input: InputView): readonly Issue[] => {
  const own = (name: string): readonly Issue[] => issues.value.filter(({ path }) => path === name);
  const isGiven = (name: string): boolean =>
    [texts.value[name] ?? ''].flat().some((text) => text.trim() !== '');
  if (input.shortFor !== undefined && isGiven(input.name) && !isGiven(input.shortFor))
    return [...own(input.name), ...own(input.shortFor)];
  const inputs = layout.value?.groups.flatMap((group) => group.inputs) ?? [];
  const isToldElsewhere =
    !isGiven(input.name) && inputs.some(({ name, shortFor }) => shortFor === input.name && isGiven(name));
  return isToldElsewhere ? [] : own(input.name);
};

const Rows = ({ inputs }: { readonly inputs: readonly InputView[] }): JSX.Element => (
  <>
    {inputs.map((input) => (
      <FieldRow key={input.name} input={input} wrong={faultsOf(input)} />
    ))}
  </>
);

/** Inputs that open on request, under a heading that says how many are wrong. */
const Fold = ({ heading, inputs }: GroupView): JSX.Element | null => {
  const details = useRef<HTMLDetailsElement>(null);
  const count = inputs.flatMap(faultsOf).length;
  const isWrong = count > 0;
  useEffect(() => {
    // It is never closed here: what was wrong is put right with the cursor in it.
    if (isWrong && details.current !== null) details.current.open = true;
  }, [isWrong]);
  if (inputs.length === 0) return null;
  return (
    <details ref={details} class="group">
      <summary>
        {heading}
        {isWrong && <span class="count"> · {words().wrong(count)}</span>}
      </summary>
      <Rows inputs={inputs} />
    </details>
  );
};

/** The template's own inputs: first those that cannot be left out or that its examples give, then all others. */
const Own = ({ view }: { readonly view: LayoutView }): JSX.Element => {
  const [group, ...others] = view.groups;
  const shown = new Set(view.examples.flatMap((example) => Object.keys(example)));
  const isFirst = ({ name, required }: InputView): boolean => required || shown.has(name);
  const inputs = group?.inputs ?? [];
  return (
    <>
      <div class="group">
        <Rows inputs={inputs.filter(isFirst)} />
      </div>
      <Fold heading={words().more} inputs={inputs.filter((input) => !isFirst(input))} />
      {others.map((other) => (
        <Fold key={other.heading} {...other} />
      ))}
    </>
  );
};

/** Faults of no single input. */
const OtherFaults = (): JSX.Element => {
  const names = new Set(layout.value?.groups.flatMap(({ inputs }) => inputs.map(({ name }) => name)));
  const other = issues.value.filter(({ path }) => !names.has(path));
  return <Telling issues={other} />;
};

type View = 'sheet' | 'pages' | 'space' | 'figures';

const Board = ({ sheet, view }: { readonly sheet: SheetView; readonly view: View }): JSX.Element => {
  switch (view) {
    case 'sheet':
      return (
        <Zoomable picture={sheet.drawing} label={words().drawing(sheet.heading)} describedBy="in-words" />
      );
    case 'pages':
      return <Pages />;
    case 'space':
      return <Joint />;
    case 'figures':
      return <Figures sheet={sheet} />;
  }
};

/** The drawing in all its views. */
const Drawing = (): JSX.Element => {
  const view = useSignal<View>('sheet');
  const which = useSignal(0);
  const isHeld = useSignal(false);
  const sheets = drawing.value?.sheets ?? [];
  const sheet = sheets[Math.min(which.value, sheets.length - 1)];
  const isStale = issues.value.length > 0;
  if (sheet === undefined)
    return (
      <section class="views-of" aria-label={words().views} aria-busy={isDrawing.value}>
        <p class="note">{isStale ? words().none : words().wait}</p>
      </section>
    );
  return (
    <section
      class={`views-of${isStale ? ' stale' : ''}`}
      aria-label={words().views}
      aria-busy={isDrawing.value}
    >
      <div class="bar">
        <Tabs
          label={words().views}
          tabs={[
            ['sheet', words().sheet],
            ['pages', words().pages],
            ...(layout.value?.isBody === true ? [['space', words().space] as const] : []),
            ['figures', words().figures],
          ]}
          chosen={view.value}
          onChoose={(next) => (view.value = next)}
        />
      </div>
      {(view.value === 'sheet' || view.value === 'figures') && sheets.length > 1 && (
        <div class="choices" role="radiogroup" aria-label={words().which}>
          {sheets.map(({ name, heading }, i) => (
            <label key={name} class="choice">
              <input
                type="radio"
                name="which"
                checked={sheet === sheets[i]}
                onChange={() => (which.value = i)}
              />
              <span>{heading}</span>
            </label>
          ))}
        </div>
      )}
      {isStale && (
        <p class="note" role="status">
          {words().last}
        </p>
      )}
      <div id="panel" role="tabpanel" aria-labelledby={`tab-${view.value}`}>
        <Board sheet={sheet} view={view.value} />
      </div>
      <p id="in-words" class="spoken">
        {sheet.subject.join('. ')}. {sheet.facts.map(([label, value]) => `${label}: ${value}`).join('. ')}
      </p>
      <div class="bar under">
        <button type="button" onClick={() => (isHeld.value = true)}>
          {words().hold}
        </button>
        <p class="identity">
          {words().identity} <strong>{drawing.value?.identity}</strong>
        </p>
      </div>
      {isHeld.value && <Hold sheet={sheet} onClose={() => (isHeld.value = false)} />}
    </section>
  );
};

/** One template: the form, its drawing, and what it can be taken away as. */
export const Work = (): JSX.Element => {
  const view = layout.value;
  const name = route.value.screen === 'work' ? route.value.layout : '';
  useEffect(() => {
    document.title = `${captionOf(name)} · Soapstone`;
  }, [name]);
  if (view === undefined)
    return (
      <main class="list">
        <h1>{words().unknown(name)}</h1>
        <div class="keys">
          <a class="key" href="#">
            {words().choose}
          </a>
        </div>
      </main>
    );
  return (
    <main class="work" key={view.id}>
      <div class="title">
        <h1>{captionOf(view.id)}</h1>
        <p>{sentence(view.summary)}.</p>
      </div>
      <form class="form" aria-label={words().form} onSubmit={(event) => event.preventDefault()}>
        <OtherFaults />
        <Own view={view} />
      </form>
      <Drawing />
      <Take />
    </main>
  );
};

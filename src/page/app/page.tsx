import { useSignalEffect } from '@preact/signals';
import type { JSX } from 'preact';
import { useEffect } from 'preact/hooks';
import { takeFiles } from './parts/open-file.tsx';
import { Telling } from './parts/telling.tsx';
import { Choose } from './screens/choose.tsx';
import { Pieces } from './screens/pieces.tsx';
import { Printers } from './screens/printers.tsx';
import { Work } from './screens/work.tsx';
import type { Language } from '../../words/languages.ts';
import {
  catalogue,
  fault,
  keeps,
  language,
  light,
  notice,
  opened,
  pieces,
  route,
  setLanguage,
  setLight,
} from './state.ts';
import { say } from '../../words/say.ts';

const words = () => ({
  name: 'Soapstone',
  skip: say`To the content`,
  nav: say`Sections`,
  templates: say`Templates`,
  pieces: (count: number): string => (count === 0 ? say`Pieces` : say`Pieces (${count})`),
  printers: say`Printers`,
  lights: { auto: say`Light: auto`, bright: say`Light: day`, dark: say`Light: night` },
  fault: (version: string, message: string): string =>
    say`Soapstone ${version} failed. The mistake is ours, not yours: ${message}`,
  keepsNothing: say`This browser saves nothing for this page. Save a job file before you close it.`,
  close: say`Close`,
  foot: (version: string): string =>
    say`Soapstone ${version}. Works without a network; nothing is sent anywhere. Check every print with a steel rule before you cut. Local codes and licensed practice come first.`,
});

/** The language that the page can be turned to, by its own name. */
const otherLanguage = (): { readonly id: Language; readonly name: string } =>
  language.value === 'en' ? { id: 'es', name: 'Español' } : { id: 'en', name: 'English' };

const nextLight = { auto: 'bright', bright: 'dark', dark: 'auto' } as const;

const Head = (): JSX.Element => {
  const { screen } = route.value;
  const link = (href: string, caption: string, isHere: boolean): JSX.Element => (
    <a href={href} aria-current={isHere ? 'page' : undefined}>
      {caption}
    </a>
  );
  return (
    <header class="head">
      <a class="name" href="#">
        <svg viewBox="0 0 32 32" aria-hidden="true">
          <path class="line" d="M3 22C9 22 10 9 16 9s7 13 13 13" />
          <path class="edge" d="M3 28h26" />
        </svg>
        <span>{words().name}</span>
      </a>
      <nav aria-label={words().nav}>
        {link('#', words().templates, screen === 'choose' || screen === 'work')}
        {link('#/pieces', words().pieces(pieces.value.length), screen === 'pieces')}
        {link('#/printers', words().printers, screen === 'printers')}
        <button type="button" onClick={() => setLight(nextLight[light.value])}>
          {words().lights[light.value]}
        </button>
      </nav>
      <button
        type="button"
        class="language"
        lang={otherLanguage().id}
        onClick={() => void setLanguage(otherLanguage().id)}
      >
        {otherLanguage().name}
      </button>
    </header>
  );
};

/** What is wrong with a file that was opened, and faults of our own. */
const Told = (): JSX.Element | null => {
  const version = catalogue.value?.version ?? '';
  if (fault.value === undefined && opened.value.length === 0) return null;
  return (
    <div class="telling wide-telling" role="alert">
      {fault.value !== undefined && <p>{words().fault(version, fault.value)}</p>}
      <Telling issues={opened.value} />
      <button
        type="button"
        onClick={() => {
          fault.value = undefined;
          opened.value = [];
        }}
      >
        {words().close}
      </button>
    </div>
  );
};

const Screen = (): JSX.Element => {
  switch (route.value.screen) {
    case 'choose':
      return <Choose />;
    case 'work':
      return <Work />;
    case 'pieces':
      return <Pieces />;
    case 'printers':
      return <Printers />;
  }
};

/** The whole page. */
export const Page = (): JSX.Element => {
  useSignalEffect(() => {
    document.documentElement.dataset['light'] = light.value;
  });
  useSignalEffect(() => {
    if (notice.value === '') return undefined;
    const timer = setTimeout(() => (notice.value = ''), 6000);
    return () => clearTimeout(timer);
  });
  useEffect(() => {
    const over = (event: DragEvent): void => event.preventDefault();
    const drop = (event: DragEvent): void => {
      event.preventDefault();
      void takeFiles(event.dataTransfer?.files ?? []);
    };
    addEventListener('dragover', over);
    addEventListener('drop', drop);
    return () => {
      removeEventListener('dragover', over);
      removeEventListener('drop', drop);
    };
  }, []);
  return (
    <div class="frame">
      <Head />
      <Told />
      {!keeps.value && <p class="note">{words().keepsNothing}</p>}
      <Screen />
      <p class={`notice${notice.value === '' ? ' empty' : ''}`} role="status">
        {notice.value}
      </p>
      <footer class="foot">{words().foot(catalogue.value?.version ?? '')}</footer>
    </div>
  );
};

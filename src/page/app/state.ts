import { batch, computed, effect, signal, type Signal } from '@preact/signals';
import type { Issue } from '../../issue.ts';
import type { Texts } from '../../request.ts';
import type { Profiles } from '../core/printers.ts';
import type {
  Asked,
  BookView,
  Catalogue,
  DrawingView,
  JointView,
  LayoutView,
  Outcome,
  SightsView,
} from '../core/views.ts';
import { readAddress, writeAddress, type Route } from './address.ts';
import { core, followNewest } from './link.ts';
import { setCatalog } from '../../words/say.ts';
import type { Language } from '../../words/languages.ts';
import { keep, keepChanged, type Kept, readKept } from './store.ts';

/** Everything there is to ask for; undefined until the worker has answered. */
export const catalogue = signal<Catalogue | undefined>(undefined);
export const route = signal<Route>({ screen: 'choose' });

/** What is typed into the form, empty texts too. */
export const texts = signal<Texts>({});
/** The drawing last made, kept while what is typed cannot be drawn. */
export const drawing = signal<DrawingView | undefined>(undefined);
/** What is wrong with what is typed. */
export const issues = signal<readonly Issue[]>([]);
/** A fault of our own, in words. */
export const fault = signal<string | undefined>(undefined);
/** The pages of what is typed; undefined until they have been laid. */
export const book = signal<Outcome<BookView> | undefined>(undefined);

export const pieces = signal<readonly Asked[]>([]);
/** A piece of the list and its place there. */
export interface Listed {
  readonly piece: Asked;
  readonly place: number;
}
/** The piece of the list that is being changed. */
export const changing = signal<Listed | undefined>(undefined);
export const recent = signal<readonly string[]>([]);
export const printers = signal<Profiles>({});
export const light = signal<'auto' | 'bright' | 'dark'>('auto');
/** What the page is written in. */
export const language = signal<Language>('en');
/** False once the browser has refused to keep something. */
export const keeps = signal(true);
/** What is wrong with a file that was opened. */
export const opened = signal<readonly Issue[]>([]);
/** What was just done, read out and shown for a while. */
export const notice = signal('');

export const layout = computed((): LayoutView | undefined => {
  const { value } = route;
  return value.screen === 'work' ? catalogue.value?.layouts.find(({ id }) => id === value.layout) : undefined;
});

/** Texts without those left empty. */
const dropEmpty = (typed: Texts): Texts =>
  Object.fromEntries(
    Object.entries(typed).flatMap(([name, text]) => {
      const given = [text].flat().filter((one) => one.trim() !== '');
      if (given.length === 0) return [];
      return [[name, typeof text === 'string' ? text : given]];
    }),
  );

/** The request as it stands in the form. */
export const asked = computed((): Asked | undefined =>
  layout.value === undefined ? undefined : { layout: layout.value.id, texts: dropEmpty(texts.value) },
);

export const tellFault = (error: unknown): void => {
  fault.value = error instanceof Error ? error.message : String(error);
};

/** True while the form's request has not been answered. */
export const isDrawing = signal(false);
let newest: Asked | undefined;

/** What the address asks for is drawn while the page is still being made. */
let early: { readonly address: string; readonly answer: Promise<Outcome<DrawingView>> } | undefined;

const drawEarly = (): void => {
  const next = readAddress(location.hash);
  if (next.screen !== 'work' || next.texts === undefined || 'printer' in next.texts) return;
  const request = { layout: next.layout, texts: dropEmpty(next.texts) };
  early = { address: writeAddress(request), answer: core.then(async (program) => program.draw(request)) };
};

const draw = followNewest(
  async (request: Asked) => {
    const ahead = early;
    early = undefined;
    return ahead?.address === writeAddress(request) ? ahead.answer : (await core).draw(request);
  },
  (answer, request) => {
    batch(() => {
      if (answer.kind === 'done') drawing.value = answer.value;
      issues.value = answer.kind === 'done' ? [] : answer.issues;
      isDrawing.value = request !== newest;
    });
  },
  tellFault,
);

const lay = followNewest(
  async (request: Asked) => (await core).layPages(request),
  (answer) => {
    book.value = answer;
  },
  tellFault,
);

/** The small views of the joint, drawn when they are looked at. */
export const sights = signal<readonly SightsView[]>([]);

const see = followNewest(
  async (request: Asked) => (await core).drawSights(request),
  (answer) => {
    if (answer.kind === 'done') sights.value = answer.value;
  },
  tellFault,
);

/** Draws the small views of the request as it stands. */
export const drawSights = (): void => {
  if (asked.value !== undefined) see(asked.value);
};

/** What is typed, in space; a value of undefined where it makes no body. */
export const joint = signal<Outcome<JointView | undefined> | undefined>(undefined);

const putTogether = followNewest(
  async (request: Asked) => (await core).putTogether(request),
  (answer) => {
    // The form says what cannot be made; the last joint that could be stays in sight.
    if (answer.kind === 'done' || joint.value === undefined) joint.value = answer;
  },
  tellFault,
);

/** Puts the request as it stands together in space. */
export const makeJoint = (): void => {
  if (asked.value !== undefined) putTogether(asked.value);
};

/** Lays the pages of the request as it stands. */
export const layPages = (): void => {
  if (asked.value !== undefined) lay(asked.value);
};

/** Of the title block, what is the shop's rather than the piece's. */
const ofShop = new Set(['owner', 'drawn', 'checked', 'approved', 'job', 'order']);
/** One piece's own, or one printer's. */
const notOfShop = new Set(['calibration', 'paper-thickness']);

/** What the shop asked for last: paper, units, printer, names. It stays for the next template. */
export const shop = signal<Texts>({});

const isOfShop = (name: string): boolean => {
  const group = layout.value?.groups.findIndex(({ inputs }) => inputs.some((input) => input.name === name));
  return !notOfShop.has(name) && (ofShop.has(name) || group === 1 || group === 2);
};

/** The piece of the list whose address comes next: any other address is of no piece. */
let coming: Listed | undefined;

/** The address that the page shows. The browser's differs from it for a moment when another has been gone to. */
let shownAddress = '';

/** Takes the page to what its address asks for. */
export const followAddress = (): void => {
  shownAddress = location.hash;
  const next = readAddress(shownAddress);
  route.value = next;
  changing.value = coming;
  coming = undefined;
  if (next.screen !== 'work') return;
  const view = layout.value;
  drawing.value = undefined;
  book.value = undefined;
  joint.value = undefined;
  sights.value = [];
  issues.value = [];
  if (view === undefined) return;
  texts.value = next.texts ?? dropEmpty({ ...view.examples[0], ...inPageLanguage(), ...shop.value });
  recent.value = [view.id, ...recent.value.filter((id) => id !== view.id)].slice(0, 6);
  void keep('recent', recent.value);
};

/** Goes to a request, as if its link had been opened. */
export const openRequest = (request: Asked): void => {
  location.hash = writeAddress(request);
};

/** Goes to a piece of the list, to change it. */
export const openPiece = (listed: Listed): void => {
  coming = listed;
  openRequest(listed.piece);
};

export const setText = (name: string, text: string | readonly string[]): void => {
  texts.value = { ...texts.value, [name]: text };
  if (isOfShop(name)) shop.value = { ...shop.value, [name]: text };
};

/** Makes the page speak the language kept on this device, or else the browser's where it is Spanish. */
export const startLanguage = async (): Promise<void> => {
  const kept = await readKept('language');
  const chosen = kept ?? (navigator.language.startsWith('es') ? 'es' : 'en');
  if (chosen === 'en') return;
  const texts = await (await core).speak(chosen);
  if (texts === undefined) return;
  setCatalog(new Map(Object.entries(JSON.parse(texts) as Record<string, string>)));
  language.value = chosen;
  document.documentElement.lang = chosen;
};

/** Brings the address after what is typed, so that the page opened anew shows the same; never over one that was gone to since. */
const showAddress = (): void => {
  const request = asked.value;
  if (request === undefined || location.hash !== shownAddress) return;
  const address = writeAddress(request);
  if (address === shownAddress) return;
  history.replaceState(null, '', address);
  shownAddress = location.hash;
};

/** How long the keys must rest before the address follows, ms: browsers are slow to take a new one, and count them. */
const REST = 300;
let resting: ReturnType<typeof setTimeout> | undefined;

const followTyping = (): void => {
  clearTimeout(resting);
  resting = setTimeout(showAddress, REST);
};

/** Keeps the language and opens the page anew in it, at the same request. */
export const setLanguage = async (next: Language): Promise<void> => {
  await keep('language', next);
  showAddress();
  location.reload();
};

/** What a new request is written in, where that is not English. */
const inPageLanguage = (): Texts => (language.value === 'en' ? {} : { language: language.value });

/** Starts what follows the state: drawing, the address, what is kept. */
export const start = async (): Promise<void> => {
  addEventListener('hashchange', followAddress);
  addEventListener('focus', () => void readAgain());
  const listed = core.then((program) => program.listCatalogue());
  drawEarly();
  const [known, keptPieces, keptRecent, keptPrinters, keptLight] = await Promise.all([
    listed,
    readKept('pieces'),
    readKept('recent'),
    readKept('printers'),
    readKept('light'),
  ]);
  pieces.value = keptPieces ?? [];
  recent.value = keptRecent ?? [];
  printers.value = keptPrinters ?? {};
  light.value = keptLight ?? 'auto';
  catalogue.value = known;
  effect(() => {
    const profiles = printers.value;
    void core.then((program) => program.knowPrinters(profiles));
  });
  followAddress();
  effect(() => {
    const request = asked.value;
    if (request === undefined) return;
    newest = request;
    isDrawing.value = true;
    draw(request);
    followTyping();
  });
};

/**
 * Changes what is shown and kept under a name. The change is made to what is kept now, since another window may have changed it;
 * what the browser did not keep stands here alone.
 */
const changeKept = async <K extends 'pieces' | 'printers'>(
  name: K,
  shown: Signal<Kept[K]>,
  none: Kept[K],
  change: (known: Kept[K]) => Kept[K],
): Promise<void> => {
  const kept = await keepChanged(name, (known) => change(keeps.value ? (known ?? none) : shown.value));
  shown.value = kept ?? change(shown.value);
  keeps.value = kept !== undefined;
};

/** Changes the list of pieces and keeps it. */
export const changePieces = (change: (list: readonly Asked[]) => readonly Asked[]): Promise<void> =>
  changeKept('pieces', pieces, [], change);

/** Changes what is known of printers and keeps it. */
export const changePrinters = (change: (known: Profiles) => Profiles): Promise<void> =>
  changeKept('printers', printers, {}, change);

/** Where a piece stands in a list: at its place, or where another window has moved it to; -1 where it is gone. */
export const findPiece = (list: readonly Asked[], { piece, place }: Listed): number => {
  const text = JSON.stringify(piece);
  const isIt = (one: Asked | undefined): boolean => JSON.stringify(one) === text;
  return isIt(list[place]) ? place : list.findIndex(isIt);
};

/** Takes over what another window of the page has kept. */
const readAgain = async (): Promise<void> => {
  const [list, known] = await Promise.all([readKept('pieces'), readKept('printers')]);
  if (!keeps.value) return;
  pieces.value = list ?? pieces.value;
  printers.value = known ?? printers.value;
};

export const setLight = (next: 'auto' | 'bright' | 'dark'): void => {
  light.value = next;
  void keep('light', next);
};

import type { JSX } from 'preact';
import type { Issue } from '../../../issue.ts';
import type { InputView } from '../../core/views.ts';
import { catalogue, layout, printers, setText, texts } from '../state.ts';
import { captionOf, plainCaption } from '../../../words/captions.ts';
import { spoken } from '../words.ts';
import { SignKeys } from './sign-keys.tsx';
import { StockChoice } from './stock-choice.tsx';
import { Telling } from './telling.tsx';
import { say } from '../../../words/say.ts';

const words = () => ({
  required: say`required`,
  otherwise: (text: string): string => say`${text} if left empty`,
  asIn: (text: string): string => say`as in ${text}`,
  add: (caption: string): string => say`Add ${caption.toLowerCase()}`,
  remove: (caption: string, n: number): string => say`Remove ${caption.toLowerCase()} ${n}`,
  yes: 'yes',
  usual: say`as usual`,
  more: say`How it is written`,
});

const idOf = (name: string, n = 0): string => `in-${name}${n === 0 ? '' : `-${n}`}`;

/** Which keys a phone shows: figures for lengths and angles, whose signs stand under the field. */
const keyboardOf = ({ kind }: InputView): 'decimal' | 'numeric' | 'text' =>
  kind === 'length' || kind === 'angle' || kind === 'number'
    ? 'decimal'
    : kind === 'count'
      ? 'numeric'
      : 'text';

const valuesOf = (input: InputView): readonly string[] => {
  const given = [texts.value[input.name] ?? []].flat();
  return given.length === 0 ? [''] : given;
};

const write = (input: InputView, n: number, text: string): void => {
  if (!input.many) {
    setText(input.name, text);
    return;
  }
  setText(
    input.name,
    valuesOf(input).map((one, i) => (i === n ? text : one)),
  );
};

interface OneProps {
  readonly input: InputView;
  readonly n: number;
  readonly text: string;
  readonly isWrong: boolean;
}

const describedBy = ({ name }: InputView, isWrong: boolean): string =>
  isWrong ? `wrong-${name} help-${name}` : `help-${name}`;

/** Names that the page knows for an input: papers, and the printers of this device. */
const offersOf = ({ name }: InputView): readonly string[] =>
  name === 'paper' ? (catalogue.value?.papers ?? []) : name === 'printer' ? Object.keys(printers.value) : [];

/** A field for one text, with the signs a phone's figures lack. */
const TextInput = ({ input, n, text, isWrong }: OneProps): JSX.Element => {
  const offers = offersOf(input);
  const list = `offers-${input.name}`;
  return (
    <div class="entry">
      <input
        id={idOf(input.name, n)}
        type="text"
        value={text}
        placeholder={input.default ?? input.example}
        inputMode={keyboardOf(input)}
        autocomplete="off"
        autocapitalize="off"
        spellcheck={false}
        aria-invalid={isWrong}
        aria-required={input.required}
        aria-describedby={describedBy(input, isWrong)}
        list={offers.length > 0 ? list : undefined}
        onInput={(event) => write(input, n, event.currentTarget.value)}
      />
      {offers.length > 0 && (
        <datalist id={list}>
          {offers.map((offer) => (
            <option key={offer} value={offer} />
          ))}
        </datalist>
      )}
      <SignKeys kind={input.kind} field={idOf(input.name, n)} />
      {input.stocks.length > 0 && (
        <StockChoice
          input={input}
          caption={captionOf(input.name)}
          text={text}
          onChoose={(chosen) => write(input, n, chosen)}
        />
      )}
    </div>
  );
};

/** A few words to choose from, side by side. */
const ChoiceInput = ({ input, text, isWrong }: OneProps): JSX.Element => {
  // What is right depends on the joint where an input has no default: it must be possible to leave it to that again.
  const isOpen = input.default === undefined && !input.required;
  const choices = [...(isOpen ? [''] : []), ...(input.choices ?? [])];
  const chosen = text === '' ? (input.default ?? '') : text.trim().toLowerCase();
  return (
    <div
      class="choices"
      role="radiogroup"
      aria-labelledby={`name-${input.name}`}
      aria-describedby={describedBy(input, isWrong)}
    >
      {choices.map((choice, i) => (
        <label key={choice} class="choice">
          <input
            id={i === 0 ? idOf(input.name) : undefined}
            type="radio"
            name={input.name}
            value={choice}
            checked={choice === chosen}
            onChange={() => setText(input.name, choice)}
          />
          <span>{choice === '' ? words().usual : choice}</span>
        </label>
      ))}
    </div>
  );
};

const FlagInput = ({ input, text, isWrong }: OneProps): JSX.Element => (
  <label class="flag">
    <input
      id={idOf(input.name)}
      type="checkbox"
      checked={text === 'yes'}
      aria-describedby={describedBy(input, isWrong)}
      aria-labelledby={`name-${input.name}`}
      onChange={(event) => setText(input.name, event.currentTarget.checked ? 'yes' : '')}
    />
    <span>{words().yes}</span>
  </label>
);

const ManyInput = ({
  input,
  isWrong,
}: {
  readonly input: InputView;
  readonly isWrong: boolean;
}): JSX.Element => {
  const values = valuesOf(input);
  const caption = captionOf(input.name);
  return (
    <div class="several" role="group" aria-labelledby={`name-${input.name}`}>
      {values.map((text, n) => (
        <div key={n} class="one-of-several">
          <TextInput input={input} n={n} text={text} isWrong={isWrong} />
          {values.length > 1 && (
            <button
              type="button"
              class="small"
              aria-label={words().remove(caption, n + 1)}
              onClick={() =>
                setText(
                  input.name,
                  values.filter((_, i) => i !== n),
                )
              }
            >
              −
            </button>
          )}
        </div>
      ))}
      <button type="button" class="small" onClick={() => setText(input.name, [...values, ''])}>
        {words().add(caption)}
      </button>
    </div>
  );
};

/** Help longer than this is opened when it is asked for. */
const longHelp = 150;

const notesOf = (input: InputView): string =>
  [
    input.default !== undefined && input.kind !== 'flag' && input.choices === undefined
      ? words().otherwise(input.default)
      : '',
    input.range ?? '',
    input.default === undefined && input.choices === undefined ? words().asIn(input.example) : '',
  ]
    .filter((part) => part !== '')
    .join(' · ');

const Help = ({ input }: { readonly input: InputView }): JSX.Element => {
  const [help, notes] = [spoken(input.help), notesOf(input)];
  const id = `help-${input.name}`;
  if (help.length <= longHelp)
    return (
      <p class="help" id={id}>
        {notes === '' ? help : `${help} · ${notes}`}
      </p>
    );
  return (
    <div class="help" id={id}>
      <p>{notes}</p>
      <details>
        <summary>{words().more}</summary>
        {help}
      </details>
    </div>
  );
};

/** One question: its name, where to answer, what it means, and what is wrong with the answer. */
export const FieldRow = ({
  input,
  wrong,
}: {
  readonly input: InputView;
  readonly wrong: readonly Issue[];
}): JSX.Element => {
  const isWrong = wrong.length > 0;
  const [text = ''] = valuesOf(input);
  const props: OneProps = { input, n: 0, text, isWrong };
  const isChoice = input.choices !== undefined && input.kind !== 'flag';
  const caption = captionOf(input.name, layout.value?.id);
  // Job files and the command line know inputs by their English names.
  const isTranslated = caption.toLowerCase() !== plainCaption(input.name).toLowerCase();
  return (
    <div class={`row${isWrong ? ' wrong' : ''}`}>
      <div class="caption">
        {isChoice || input.many ? (
          <span id={`name-${input.name}`}>{caption}</span>
        ) : (
          <label id={`name-${input.name}`} for={idOf(input.name)}>
            {caption}
          </label>
        )}
        {isTranslated && <small lang="en">{input.name}</small>}
        {input.required && <small>{words().required}</small>}
      </div>
      {input.many ? (
        <ManyInput input={input} isWrong={isWrong} />
      ) : input.kind === 'flag' ? (
        <FlagInput {...props} />
      ) : isChoice ? (
        <ChoiceInput {...props} />
      ) : (
        <TextInput {...props} />
      )}
      <Telling issues={wrong} id={`wrong-${input.name}`} />
      <Help input={input} />
    </div>
  );
};

import { useSignal } from '@preact/signals';
import type { JSX } from 'preact';
import { useEffect } from 'preact/hooks';
import type { Issue } from '../../../issue.ts';
import { core, fonts } from '../link.ts';
import { Telling } from '../parts/telling.tsx';
import { saveFile } from '../save.ts';
import { catalogue, changePrinters, notice, printers, tellFault } from '../state.ts';
import { say } from '../../../words/say.ts';

const words = () => ({
  heading: say`Printers`,
  why: say`No printer is quite true. Print the calibration sheet once, measure its bars with a steel rule, and every print for this printer comes out true to size.`,
  printer: say`Printer`,
  printerHelp: say`a name of your own`,
  printerExample: 'shop laser',
  paper: say`Paper`,
  units: say`Units of the readings`,
  sheet: say`Save the calibration sheet (PDF)`,
  across: say`Bars A and B, across`,
  along: say`Bars C and D, along`,
  bars: say`what the rule reads, both with a comma between: 189.4, 189.5`,
  date: say`Date`,
  dateHelp: say`year-month-day`,
  take: say`Keep the readings`,
  taken: (printer: string): string => say`Readings of ${printer} are kept on this device`,
  kept: say`Kept on this device`,
  remove: (printer: string): string => say`Forget ${printer}`,
});

const today = (): string => {
  const now = new Date();
  const parts = [now.getFullYear(), now.getMonth() + 1, now.getDate()];
  return parts.map((part) => String(part).padStart(2, '0')).join('-');
};

type Field = 'printer' | 'paper' | 'across' | 'along' | 'date';

const listFields = (): readonly (readonly [Field, caption: string, help: string])[] => [
  ['printer', words().printer, words().printerHelp],
  ['paper', words().paper, ''],
  ['across', words().across, words().bars],
  ['along', words().along, words().bars],
  ['date', words().date, words().dateHelp],
];

const Kept = (): JSX.Element => (
  <section>
    <h2>{words().kept}</h2>
    <dl class="kept">
      {Object.entries(printers.value).map(([printer, papers]) => (
        <div key={printer}>
          <dt>{printer}</dt>
          {Object.entries(papers).map(([paper, text]) => (
            <dd key={paper}>
              {paper}: {text}
            </dd>
          ))}
          <dd>
            <button
              type="button"
              onClick={() => void changePrinters(({ [printer]: _gone, ...rest }) => rest).catch(tellFault)}
            >
              {words().remove(printer)}
            </button>
          </dd>
        </div>
      ))}
    </dl>
  </section>
);

/** Calibration: the sheet of bars, its readings, and what is kept of them on this device. */
export const Printers = (): JSX.Element => {
  const typed = useSignal<Readonly<Record<Field, string>>>({
    printer: words().printerExample,
    paper: 'letter',
    across: '',
    along: '',
    date: today(),
  });
  const units = useSignal<'mm' | 'in'>('mm');
  const told = useSignal<readonly Issue[]>([]);
  useEffect(() => {
    document.title = `${words().heading} · Soapstone`;
  }, []);
  const saveSheet = async (): Promise<void> => {
    await fonts;
    const made = await (await core).writeCalibrationSheet(typed.value.printer, typed.value.paper);
    told.value = made.kind === 'done' ? [] : made.issues;
    if (made.kind === 'done') saveFile(made.value);
  };
  const take = async (): Promise<void> => {
    const read = await (await core).takeReadings({ ...typed.value, units: units.value });
    told.value = read.kind === 'done' ? [] : read.issues;
    if (read.kind === 'refused') return;
    const { printer, paper, calibration } = read.value;
    await changePrinters((known) => ({ ...known, [printer]: { ...known[printer], [paper]: calibration } }));
    notice.value = words().taken(printer);
  };
  const row = ([name, caption, help]: ReturnType<typeof listFields>[number]): JSX.Element => {
    const wrong = told.value.filter(({ path }) => path === name);
    return (
      <div class={`row${wrong.length > 0 ? ' wrong' : ''}`} key={name}>
        <div class="caption">
          <label for={`read-${name}`}>{caption}</label>
        </div>
        <div class="entry">
          <input
            id={`read-${name}`}
            type="text"
            value={typed.value[name]}
            list={name === 'paper' ? 'papers' : undefined}
            aria-invalid={wrong.length > 0}
            aria-describedby={`about-${name}`}
            autocomplete="off"
            onInput={(event) => (typed.value = { ...typed.value, [name]: event.currentTarget.value })}
          />
        </div>
        <div id={`about-${name}`}>
          <Telling issues={wrong} />
          {help !== '' && <p class="help">{help}</p>}
        </div>
      </div>
    );
  };
  const [printerRow, paperRow, ...readingRows] = listFields();
  return (
    <main class="list">
      <h1>{words().heading}</h1>
      <p>{words().why}</p>
      <datalist id="papers">
        {(catalogue.value?.papers ?? []).map((name) => (
          <option key={name} value={name} />
        ))}
      </datalist>
      <div class="group">
        {[printerRow, paperRow].map((one) => one && row(one))}
        <div class="keys">
          <button type="button" onClick={() => void saveSheet().catch(tellFault)}>
            {words().sheet}
          </button>
        </div>
        <div class="row">
          <div class="caption">
            <span id="units-of">{words().units}</span>
          </div>
          <div class="choices" role="radiogroup" aria-labelledby="units-of">
            {(['mm', 'in'] as const).map((unit) => (
              <label key={unit} class="choice">
                <input
                  type="radio"
                  name="reading-units"
                  checked={units.value === unit}
                  onChange={() => (units.value = unit)}
                />
                <span>{unit}</span>
              </label>
            ))}
          </div>
        </div>
        {readingRows.map(row)}
        <div class="keys">
          <button type="button" class="main" onClick={() => void take().catch(tellFault)}>
            {words().take}
          </button>
        </div>
      </div>
      {Object.keys(printers.value).length > 0 && <Kept />}
    </main>
  );
};

import type { JSX } from 'preact';
import { useEffect } from 'preact/hooks';
import { asked, drawSights, sights } from '../state.ts';
import { sentence } from '../words.ts';
import type { SheetView, TableView } from '../../core/views.ts';
import { Still } from './still.tsx';
import { say } from '../../../words/say.ts';

const words = () => ({ check: say`To check`, steps: say`What to do`, cautions: say`Take care` });

export const TableOf = ({ table }: { readonly table: TableView }): JSX.Element => (
  <div class="wide" tabIndex={0} role="region" aria-label={table.title}>
    <table>
      <caption>{table.title}</caption>
      <thead>
        <tr>
          {table.header.map((head, i) => (
            <th key={i} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {table.rows.map((row, r) => (
          <tr key={r}>
            {row.map((cell, i) => (
              <td key={i}>{cell}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);

/** The small views of the joint. */
const Sights = ({ sheet }: { readonly sheet: string }): JSX.Element | null => {
  const request = asked.value;
  useEffect(() => drawSights(), [request]);
  const pictures = sights.value.find((one) => one.sheet === sheet)?.pictures ?? [];
  if (pictures.length === 0) return null;
  return (
    <section class="views">
      {pictures.map(({ title, picture }) => (
        <figure key={title}>
          <Still picture={picture} label={sentence(title)} />
          <figcaption>{sentence(title)}</figcaption>
        </figure>
      ))}
    </section>
  );
};

/** All that a sheet says beside its drawing, as text. */
export const Figures = ({ sheet }: { readonly sheet: SheetView }): JSX.Element => (
  <div class="figures">
    <section>
      <h2>{sheet.heading}</h2>
      {sheet.subject.map((line) => (
        <p key={line}>{line}</p>
      ))}
      <h3>{words().check}</h3>
      <dl>
        {sheet.facts.map(([label, value]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
    </section>
    <Sights sheet={sheet.name} />
    <section>
      <h3>{words().steps}</h3>
      <ol>
        {sheet.steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
    </section>
    {sheet.tables.map((table) => (
      <section key={table.title}>
        <TableOf table={table} />
      </section>
    ))}
    {sheet.cautions.length > 0 && (
      <section>
        <h3>{words().cautions}</h3>
        <ul>
          {sheet.cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      </section>
    )}
  </div>
);

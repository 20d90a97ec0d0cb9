import type { JSX } from 'preact';
import type { Offer, OfferedSize } from '../../../stock/offers.ts';
import type { InputView } from '../../core/views.ts';
import { catalogue } from '../state.ts';
import { say } from '../../../words/say.ts';

const words = () => ({
  size: (caption: string): string => say`${caption}: size from the table`,
  wall: (caption: string): string => say`${caption}: wall from the table`,
  choose: say`Size …`,
  wallOf: say`Wall …`,
});

/** The size of the tables that a designation begins with, the longest where several do. */
const findSize = (offers: readonly Offer[], text: string): OfferedSize | undefined => {
  const plain = `${text.trim().replace(/\s+/g, ' ').toLowerCase()} `;
  return offers
    .flatMap(({ sizes }) => sizes)
    .filter(({ size }) => plain.startsWith(`${size.toLowerCase()} `))
    .sort((a, b) => b.size.length - a.size.length)[0];
};

const sameWall = (size: OfferedSize | undefined, text: string): string =>
  size?.walls.find((wall) => text.trim().toLowerCase().endsWith(` ${wall.toLowerCase()}`)) ?? '';

/** The same wall of another size, or the most usual one. */
const startWall = ({ walls }: OfferedSize, before: string): string =>
  walls.find((wall) => wall === before) ?? walls.find((wall) => wall === 'sch 40') ?? walls[0] ?? '';

/** Size and wall chosen from the tables, for those who would rather not type; anything else is typed above. */
export const StockChoice = ({
  input,
  caption,
  text,
  onChoose,
}: {
  readonly input: InputView;
  readonly caption: string;
  readonly text: string;
  readonly onChoose: (text: string) => void;
}): JSX.Element => {
  const offers = (catalogue.value?.offers ?? []).filter(({ kind }) => input.stocks.includes(kind));
  const size = findSize(offers, text);
  const wall = sameWall(size, text);
  const chooseSize = (name: string): void => {
    const next = offers.flatMap(({ sizes }) => sizes).find((one) => one.size === name);
    if (next !== undefined) onChoose(`${next.size} ${startWall(next, wall)}`.trim());
  };
  return (
    <div class="stock-choice">
      <select
        aria-label={words().size(caption)}
        value={size?.size ?? ''}
        onChange={(event) => chooseSize(event.currentTarget.value)}
      >
        <option value="">{words().choose}</option>
        {offers.map(({ title, sizes }) => (
          <optgroup key={title} label={title}>
            {sizes.map((one) => (
              <option key={one.size} value={one.size}>
                {one.size}
              </option>
            ))}
          </optgroup>
        ))}
      </select>
      {size !== undefined && size.walls.length > 0 && (
        <select
          aria-label={words().wall(caption)}
          value={wall}
          onChange={(event) => onChoose(`${size.size} ${event.currentTarget.value}`)}
        >
          <option value="">{words().wallOf}</option>
          {size.walls.map((one) => (
            <option key={one} value={one}>
              {one}
            </option>
          ))}
        </select>
      )}
    </div>
  );
};

import type { JSX } from 'preact';

/** A row of tabs: arrow keys go along it, the panel below belongs to the one that is chosen. */
export const Tabs = <T extends string>({
  label,
  tabs,
  chosen,
  onChoose,
}: {
  readonly label: string;
  readonly tabs: readonly (readonly [T, string])[];
  readonly chosen: T;
  readonly onChoose: (tab: T) => void;
}): JSX.Element => {
  const step = (by: number, row: HTMLElement): void => {
    const at = tabs.findIndex(([name]) => name === chosen);
    const next = tabs[(at + by + tabs.length) % tabs.length];
    if (next === undefined) return;
    onChoose(next[0]);
    row.querySelector<HTMLElement>(`#tab-${next[0]}`)?.focus();
  };
  return (
    <div
      class="tabs"
      role="tablist"
      aria-label={label}
      onKeyDown={(event) => {
        if (event.key === 'ArrowRight') step(1, event.currentTarget);
        if (event.key === 'ArrowLeft') step(-1, event.currentTarget);
      }}
    >
      {tabs.map(([name, caption]) => (
        <button
          key={name}
          id={`tab-${name}`}
          type="button"
          role="tab"
          aria-selected={name === chosen}
          aria-controls="panel"
          tabIndex={name === chosen ? 0 : -1}
          onClick={() => onChoose(name)}
        >
          {caption}
        </button>
      ))}
    </div>
  );
};

/** Where a search has come to: its two sides, and the middle between them. */
export interface Found {
  readonly low: number;
  readonly high: number;
  readonly middle: number;
}

/**
 * Where a yes turns to a no between `low` and `high`, by halving.
 * @param isLow true on the side of `low`
 */
export const halve = (isLow: (x: number) => boolean, low: number, high: number, times = 60): Found => {
  let [from, to] = [low, high];
  for (let i = 0; i < times; i++) {
    const middle = (from + to) / 2;
    // As near as numbers come.
    if (middle === from || middle === to) break;
    if (isLow(middle)) from = middle;
    else to = middle;
  }
  return { low: from, high: to, middle: (from + to) / 2 };
};

/** Where a function that falls and then rises is least between `low` and `high`. */
export const lowest = (of: (x: number) => number, low: number, high: number, times: number): number => {
  let [from, to] = [low, high];
  for (let i = 0; i < times; i++) {
    const [a, b] = [from + (to - from) / 3, to - (to - from) / 3];
    if (of(a) < of(b)) to = b;
    else from = a;
  }
  return (from + to) / 2;
};

/** How far normally distributed errors reach. Pure numbers; units are those of the standard deviations given. */

/** Upper quantiles of the standard normal distribution (Abramowitz and Stegun, table 26.5). */
const NORMAL: Readonly<Record<number, number>> = { 0.95: 1.644854, 0.999: 3.090232 };

/**
 * The sum of squares of `degrees` standard normal errors that is passed with a chance of 1 − share only (Wilson and Hilferty,
 * Proc. Nat. Acad. Sci. 17 (1931) 684-688: within 2 % from two degrees on, 4 % at one).
 */
export const chiSquareLimit = (degrees: number, share: 0.95 | 0.999): number => {
  const spread = 2 / (9 * degrees);
  return degrees * (1 - spread + (NORMAL[share] as number) * Math.sqrt(spread)) ** 3;
};

/**
 * The radius that an error in the plane stays within 19 times in 20, from its standard deviations in the worst direction and
 * square to it: the chance to lie within r, integrated over the directions. A spread under a fiftieth of the other counts as that.
 */
export const radialLimit = (most: number, least: number): number => {
  if (!(most > 0)) return 0;
  const narrow = Math.max(least, 0.02 * most);
  const steps = 2000;
  const within = (radius: number): number => {
    let sum = 0;
    for (let i = 0; i < steps; i++) {
      const angle = (Math.PI * (i + 0.5)) / steps;
      const u = Math.cos(angle) ** 2 / most ** 2 + Math.sin(angle) ** 2 / narrow ** 2;
      sum += (1 - Math.exp((-u * radius * radius) / 2)) / u;
    }
    return sum / steps / (most * narrow);
  };
  let [low, high] = [0, 3 * most];
  while (high - low > 1e-6 * most) {
    const middle = (low + high) / 2;
    if (within(middle) < 0.95) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};

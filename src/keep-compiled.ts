/**
 * Keeps the last of some functions that are made anew for every drawing, and all that hangs on them. The engine drops what it has
 * compiled of a function when a sweep of memory finds none of its kind in use: between two pieces of a job that would be all of
 * these, and they would be compiled for speed again after every sweep.
 */
export const keepCompiled = <Made>(): ((made: Made) => Made) => {
  const kept: { last?: Made } = {};
  return (made) => (kept.last = made);
};

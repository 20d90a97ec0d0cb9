const outside = (i: number, { length }: ArrayLike<unknown>): RangeError =>
  new RangeError(`there is no item ${i} in a list of ${length}`);

/** An item of a list that is known to reach so far. @throws RangeError where it does not */
export const itemAt = <T>(list: ArrayLike<T>, i: number): T => {
  const item = list[i];
  if (item === undefined) throw outside(i, list);
  return item;
};

/**
 * The same of numbers, and of numbers in a typed list. What is the same in words is three functions for the engine, which reads a
 * list much faster where it has only ever met that kind of list.
 */
export const numberAt = (list: ArrayLike<number>, i: number): number => {
  const item = list[i];
  if (item === undefined) throw outside(i, list);
  return item;
};

/** See `numberAt`. */
export const realAt = (list: Float64Array, i: number): number => {
  const item = list[i];
  if (item === undefined) throw outside(i, list);
  return item;
};

/** See `numberAt`. */
export const countAt = (list: Uint32Array, i: number): number => {
  const item = list[i];
  if (item === undefined) throw outside(i, list);
  return item;
};

/** The last item of a list that is not empty. */
export const lastOf = <T>(list: ArrayLike<T>): T => itemAt(list, list.length - 1);

/** An item of a list that goes around: after its last comes its first, before its first its last. */
export const itemAround = <T>(list: ArrayLike<T>, i: number): T =>
  itemAt(list, ((i % list.length) + list.length) % list.length);

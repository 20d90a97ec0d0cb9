/** An item of a list that is known to reach so far. @throws RangeError where it does not */
export const itemAt = <T>(list: ArrayLike<T>, i: number): T => {
  const item = list[i];
  if (item === undefined) throw new RangeError(`there is no item ${i} in a list of ${list.length}`);
  return item;
};

/** The last item of a list that is not empty. */
export const lastOf = <T>(list: ArrayLike<T>): T => itemAt(list, list.length - 1);

/** An item of a list that goes around: after its last comes its first, before its first its last. */
export const itemAround = <T>(list: ArrayLike<T>, i: number): T =>
  itemAt(list, ((i % list.length) + list.length) % list.length);

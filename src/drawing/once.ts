/** A value that is made when it is first asked for, and once. */
export const once = <Value>(make: () => Value): (() => Value) => {
  let made: { readonly value: Value } | undefined;
  return () => (made ??= { value: make() }).value;
};

/** What is made for an object when it is first asked for, and once; it goes with the object. */
export const onceFor = <Key extends object, Value extends object | number>(
  make: (key: Key) => Value,
): ((key: Key) => Value) => {
  const known = new WeakMap<Key, Value>();
  return (key) => {
    const before = known.get(key);
    if (before !== undefined) return before;
    const value = make(key);
    known.set(key, value);
    return value;
  };
};

/**
 * As `onceFor`, but kept for the last object alone. A table that outlives its objects holds what was made for them until all memory is
 * swept: of many prints in a row that is more than the prints themselves.
 */
export const onceForLast = <Key extends object, Value>(make: (key: Key) => Value): ((key: Key) => Value) => {
  let last: { readonly key: Key; readonly value: Value } | undefined;
  return (key) => {
    if (last?.key !== key) last = { key, value: make(key) };
    return last.value;
  };
};

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

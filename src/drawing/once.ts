/** A value that is made when it is first asked for, and once. */
export const once = <Value>(make: () => Value): (() => Value) => {
  let made: { readonly value: Value } | undefined;
  return () => (made ??= { value: make() }).value;
};

/** The value that must be there. Throws where it is not. */
export const present = <T>(value: T | undefined): T => {
  if (value === undefined) throw new Error('a part of the file is missing');
  return value;
};

type Defined<T> = { readonly [Name in keyof T]?: Exclude<T[Name], undefined> };

/** The members that have a value. */
export const defined = <T extends object>(members: T): Defined<T> =>
  // Leaving out what is undefined is the very difference between the two types.
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  Object.fromEntries(
    Object.entries(members).filter(([, value]) => value !== undefined),
  ) as Defined<T>;

/** A value that a sheet without problems has. Throws an Error where it is missing: then a reader kept silent. */
export const present = <T>(value: T | undefined): T => {
  if (value === undefined) throw new Error('a sheet without problems lacks a value');
  return value;
};

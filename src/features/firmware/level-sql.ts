// A level's key as text that sorts as the keys themselves do, which a place in a list has to be.
const FORM = "'FM00000000000000000000'";

/** The lowest key first. */
export const keyUp = (key: string): string =>
  `to_char(${key}::numeric + 9223372036854775808, ${FORM})`;

/** The highest key first. */
export const keyDown = (key: string): string =>
  `to_char(9223372036854775807 - ${key}::numeric, ${FORM})`;

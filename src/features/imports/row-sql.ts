// Pieces of the statements that judge rows.

/**
 * Whether a row says something else than what stands there; fields it does not hold say nothing.
 */
export const differs = (pairs: readonly (readonly [field: string, column: string])[]): string =>
  `(${pairs
    .map(
      ([field, column]) =>
        `(r.fields ? '${field}' AND r.fields->>'${field}' IS DISTINCT FROM ${column}::text)`,
    )
    .join(" OR ")})`;

/** The refusal for the first of these fields that a row of a new thing does not hold. */
export const missingOfNew = (thing: string, fields: readonly string[]): string =>
  fields
    .map(
      (field) =>
        `WHEN NOT r.fields ? '${field}' THEN '${field}: is missing; a new ${thing} needs it'`,
    )
    .join(" ");

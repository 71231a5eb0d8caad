/** The scopes by name; what each opens stands in src/access/scopes.ts. A test holds both equal. */
export const SCOPE_NAMES = [
  "read:fleet",
  "read:due",
  "read:units",
  "read:jobs",
  "read:customers",
  "write:readings",
] as const;

import fc from "fast-check";

// Small and edge numbers, so that random pairs often differ in the last field only.
export const wholeNumber = fc.oneof(
  { weight: 6, arbitrary: fc.nat(3) },
  { weight: 2, arbitrary: fc.constantFrom(9, 10, 11, 255, 256, 4095, 4096, 65_535, 65_536) },
  { weight: 1, arbitrary: fc.constantFrom(2 ** 28 - 1, 2 ** 28, Number.MAX_SAFE_INTEGER) },
  { weight: 1, arbitrary: fc.nat() },
);

const word = fc.constantFrom(
  ...["alpha", "beta", "rc", "a", "pre", "preview", "SNAPSHOT", "RC"],
  ...["rc1", "rc2", "rc10", "A", "z", "-", "0a", "x-1"],
);
const field = fc.oneof(wholeNumber.map(String), word);
const prerelease = fc
  .array(field, { minLength: 0, maxLength: 3 })
  .map((fields) => (fields.length > 0 ? `-${fields.join(".")}` : ""));
const build = fc.constantFrom("", "", "+7", "+001.sha-5");

export const semverText = fc
  .tuple(wholeNumber, wholeNumber, wholeNumber, prerelease, build)
  .map(([major, minor, patch, before, after]) => `${major}.${minor}.${patch}${before}${after}`);

export const dottedText = fc
  .tuple(fc.constantFrom("", "v", "V"), fc.array(wholeNumber, { minLength: 1, maxLength: 4 }))
  .map(([lead, numbers]) => lead + numbers.join("."));

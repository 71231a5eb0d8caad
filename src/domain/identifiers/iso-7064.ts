// Requirement: check characters by ISO/IEC 7064. Pure systems: the sum of every character times
// the radix to the power of its place is 1 modulo M. Hybrid systems: a running product modulo
// M and M + 1. Formulas from memory; values checked against published examples in the tests.

/**
 * The check characters of a pure system MOD `modulus`-`radix` over `alphabet`, where a
 * character's value is its place. The body must consist of alphabet characters.
 */
export function pureCheck(
  body: string,
  alphabet: string,
  modulus: number,
  radix: number,
  checkLength: 1 | 2,
): string {
  let remainder = 0;
  for (const character of body) {
    remainder = ((remainder + alphabet.indexOf(character)) * radix) % modulus;
  }
  if (checkLength === 1) {
    return alphabet.charAt((modulus + 1 - remainder) % modulus);
  }
  // Not reduced again: the standard's two digits run from 02 to 98, never 00, 01 or 99.
  const value = modulus + 1 - ((remainder * radix) % modulus);
  return alphabet.charAt(Math.floor(value / radix)) + alphabet.charAt(value % radix);
}

/** The check character of the hybrid system MOD (size + 1),size over an alphabet of that size. */
export function hybridCheck(body: string, alphabet: string): string {
  const size = alphabet.length;
  let product = size;
  for (const character of body) {
    const sum = (product + alphabet.indexOf(character)) % size || size;
    product = (sum * 2) % (size + 1);
  }
  return alphabet.charAt((size + 1 - product) % size);
}

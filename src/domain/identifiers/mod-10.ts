// Requirement: the two check digits modulo 10 in trade use. GS1 General Specifications 7.9:
// weights 3, 1, 3 … from the right. ISO/IEC 7812-1 Annex B (Luhn): every second digit from the
// right is doubled and its digits added.

/** The GS1 check digit (GTIN, SSCC, GLN) of a body of digits. */
export function gs1Mod10(body: string): string {
  let sum = 0;
  for (let place = 0; place < body.length; place += 1) {
    const digit = Number(body.charAt(body.length - 1 - place));
    sum += place % 2 === 0 ? 3 * digit : digit;
  }
  return String((10 - (sum % 10)) % 10);
}

/** The Luhn check digit of a body of digits. */
export function luhn(body: string): string {
  let sum = 0;
  for (let place = 0; place < body.length; place += 1) {
    const digit = Number(body.charAt(body.length - 1 - place));
    const doubled = digit > 4 ? 2 * digit - 9 : 2 * digit;
    sum += place % 2 === 0 ? doubled : digit;
  }
  return String((10 - (sum % 10)) % 10);
}

// A password is refused where it is one that everybody tries, or says no more than everybody knows.
import { invalid } from "../../errors.ts";
import { isCommonPassword } from "./breached-passwords.ts";

/** The words are listed in README.md, Signing in. */
export const PRODUCT = "holdpoint";
const WORD_LENGTH_MIN = 3;
export const OWN_LETTERS_MIN = 6;

interface KnownOf {
  email: string;
  name: string;
}

/** Throws invalid input that points at the password. */
export async function refuseGuessablePassword(password: string, person: KnownOf): Promise<void> {
  if (isMadeOfKnownWords(password, person)) {
    throw invalid(
      "/body/password",
      "must say more than the product's name, the person's own name or the e-mail address",
    );
  }
  if (await isCommonPassword(password)) {
    throw invalid("/body/password", "is one of those that everybody tries first: choose another");
  }
}

/** With the known words and everything but letters taken away, hardly anything is left. */
function isMadeOfKnownWords(password: string, { email, name }: KnownOf): boolean {
  const typed = plain(password);
  if (typed === plain(email) || typed === plain(name)) return true;
  const words = [PRODUCT, ...plain(email).split(NO_WORD), ...plain(name).split(NO_WORD)]
    .filter((word) => word.length >= WORD_LENGTH_MIN)
    .toSorted((one, other) => other.length - one.length);
  const rest = words.reduce((text, word) => text.replaceAll(word, ""), typed);
  return rest !== typed && rest.replace(NO_LETTER, "").length < OWN_LETTERS_MIN;
}

const NO_WORD = /[^\p{L}\p{N}]+/u;
const NO_LETTER = /[^\p{L}]/gu;
const plain = (text: string): string => text.normalize("NFKC").trim().toLowerCase();

// What must not be guessed is made of 128 bits or more (OWASP ASVS 5.0.0, V11.5.1), whichever of
// its kinds it is.
import { expect, test } from "vitest";
import { newSecret as newKeySecret } from "../../src/features/api-keys/key-token.ts";
import { newSecret as newCalendarSecret } from "../../src/features/calendar/secret.ts";
import { newSecret as newRefreshSecret } from "../../src/features/session/refresh-secret.ts";
import { newRecoveryCodes, newTotpSecret } from "../../src/features/two-step/codes.ts";
import { newWebhookSecret } from "../../src/features/webhooks/signature.ts";

const base64url = (text: string) => Buffer.from(text, "base64url").length * 8;

test.each([
  ["a key for programs", newKeySecret, base64url, 256],
  ["a calendar's address", newCalendarSecret, base64url, 256],
  ["a refresh token", newRefreshSecret, base64url, 256],
  ["a webhook's secret", newWebhookSecret, (text: string) => base64url(text.slice(6)), 256],
  // Base 32 (RFC 4648) and Crockford's: five bits a sign.
  ["a second step's secret", newTotpSecret, (text: string) => text.length * 5, 160],
  [
    "a recovery code",
    () => newRecoveryCodes()[0]!,
    (text: string) => text.replaceAll("-", "").length * 5,
    140,
  ],
])("%s has its bits, each of them by chance", (_what, make, bitsOf, bits) => {
  const made = Array.from({ length: 64 }, make);
  for (const text of made) expect(bitsOf(text)).toBe(bits);
  expect(new Set(made).size).toBe(64);
  // No place has the same sign throughout, but for what marks the kind.
  const fixed = /^whsec_/.test(made[0]!) ? 6 : 0;
  const shortest = Math.min(...made.map((text) => text.replace(/=+$/, "").length));
  for (let place = fixed; place < shortest; place += 1) {
    if (made[0]![place] === "-" && made.every((text) => text[place] === "-")) continue;
    expect(new Set(made.map((text) => text[place])).size, `place ${place}`).toBeGreaterThan(1);
  }
});

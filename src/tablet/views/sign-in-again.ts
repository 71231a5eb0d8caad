import { phrase, speak } from "../language/spoken.ts";
import type { View } from "./frame.ts";
import type { TabletPage } from "./page.ts";
import { type SignInState, signInForm } from "./sign-in.ts";

const state: SignInState = { isAsking: false, problem: undefined };

/** Signing in where somebody was before: what is kept stays whoever signs in. */
export function signInAgainView(page: TabletPage): View {
  const submit = (email: string, password: string, code: string): void =>
    void ask(page, { email, password, code });
  return {
    back: { to: { name: "outbox" }, words: phrase("tablet.outbox") },
    body: signInForm(state, true, submit),
  };
}

async function ask(
  page: TabletPage,
  { email, password, code }: { email: string; password: string; code: string },
): Promise<void> {
  Object.assign(state, { isAsking: true, problem: undefined });
  page.redraw();
  const outcome = await page.parts.sync.signIn(email, password, code);
  state.isAsking = false;
  if (!outcome.ok) {
    state.problem = outcome.problem;
    page.redraw();
    return;
  }
  // Another firm's store is another database, so the page begins anew.
  if (outcome.profile.firmId !== page.profile.firmId) return location.reload();
  page.profile = outcome.profile;
  await speak(page.profile.language);
  page.go({ name: "outbox" });
  page.tell(phrase("tabletSignIn.done"), "good");
}

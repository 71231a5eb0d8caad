// Signing in, once: from then on the tablet knows whose it is, also without signal.
import { html, nothing, render, type TemplateResult } from "lit-html";
import type { Profile } from "../contract.ts";
import { phrase } from "../language/spoken.ts";

type SignedIn = { ok: true; profile: Profile } | { ok: false; problem: string };
export type SignIn = (email: string, password: string, code?: string) => Promise<SignedIn>;

export interface SignInState {
  isAsking: boolean;
  problem: string | undefined;
}

/** The form; `again` where somebody was signed in before and what is kept waits for him. */
export function signInForm(
  state: SignInState,
  again: boolean,
  submit: (email: string, password: string, code: string) => void,
): TemplateResult {
  const onSubmit = (event: SubmitEvent): void => {
    event.preventDefault();
    const fields = new FormData(event.target as HTMLFormElement);
    const [email, password, code] = ["email", "password", "code"].map((name) =>
      String(fields.get(name) ?? ""),
    ) as [string, string, string];
    submit(email, password, code.trim());
  };
  const why = phrase(again ? "tabletSignIn.whyAgain" : "tabletSignIn.why");
  return html`<div class="narrow">
    <h1 tabindex="-1">${phrase(again ? "tabletSignIn.again" : "tabletSignIn.title")}</h1>
    <p class="soft">${why}</p>
    <form class="card" @submit=${onSubmit}>
      <label for="email">${phrase("tabletSignIn.email")}</label>
      <input id="email" name="email" type="email" autocomplete="username" required />
      <label for="password">${phrase("tabletSignIn.password")}</label>
      <input
        id="password" name="password" type="password" autocomplete="current-password" required />
      <details>
        <summary>${phrase("tabletSignIn.secondStep")}</summary>
        <label for="code">${phrase("tabletSignIn.code")}</label>
        <input id="code" name="code" autocomplete="one-time-code" maxlength="40" />
      </details>
      <div role="alert">
        ${state.problem ? html`<p class="note bad">${state.problem}</p>` : nothing}
      </div>
      <button class="main" ?disabled=${state.isAsking}>
        ${phrase(state.isAsking ? "tabletSignIn.asking" : "tabletSignIn.title")}
      </button>
    </form>
  </div>`;
}

/** The page before anybody was signed in on this tablet; comes back with who is. */
export function firstSignIn(root: HTMLElement, signIn: SignIn): Promise<Profile> {
  const state: SignInState = { isAsking: false, problem: undefined };
  // A place of its own: what draws the page later finds the root empty.
  const place = document.createElement("div");
  return new Promise((resolve) => {
    const draw = (): void => {
      render(html`<main>${signInForm(state, false, submit)}</main>`, place);
    };
    const submit = (email: string, password: string, code: string): void => {
      void ask(email, password, code);
    };
    const ask = async (email: string, password: string, code: string): Promise<void> => {
      Object.assign(state, { isAsking: true, problem: undefined });
      draw();
      const outcome = await signIn(email, password, code);
      if (outcome.ok) return resolve(outcome.profile);
      Object.assign(state, { isAsking: false, problem: outcome.problem });
      draw();
    };
    root.replaceChildren(place);
    draw();
  });
}

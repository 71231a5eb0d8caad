/** Signing in on the tablet. */
export const tabletSignIn = {
  "tabletSignIn.title": "Sign in",
  "tabletSignIn.again": "Sign in again",
  "tabletSignIn.why": "Once, where there is signal. After that the tablet works without.",
  "tabletSignIn.whyAgain":
    "Everything kept on this tablet stays here until it is sent, signed in or not.",
  "tabletSignIn.email": "E-mail address",
  "tabletSignIn.password": "Password",
  "tabletSignIn.secondStep": "I have a second step",
  "tabletSignIn.code": "Code of the authenticator, or a recovery code",
  "tabletSignIn.asking": "Asking …",
  "tabletSignIn.done": "Signed in.",
  "tabletSignIn.noSignal": "There is no signal. Signing in needs it once; then it does not.",
  "tabletSignIn.tooLong": "Address or password is too long.",
} as const;

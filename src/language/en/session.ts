export const session = {
  "session.title": "Sign in",
  "session.refused": "Not signed in.",
  "session.insecure": "This address is not encrypted.",
  "session.insecureWayOut":
    "Signing in works over https, or on the machine itself at localhost. Ask whoever runs " +
    "this server to put TLS in front of it.",
  "session.email": "E-mail address",
  "session.password": "Password",
  "session.signIn": "Sign in",
  "session.forgotten": "Forgotten it? An owner of your firm can set a new one.",
  "session.codeTitle": "The second step",
  "session.code": "Code",
  "session.codeHint": "The six digits that your authenticator shows, or a recovery code",
  "session.again": "Begin again",
} as const;

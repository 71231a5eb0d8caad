export const account = {
  "account.title": "Your account",
  "account.twoStep": "Second step of signing in",
  "account.calendar": "Calendar address",
  "account.asFirm": "as the firm",
  "account.newPassword": "New password",
  "account.presentPassword": "Present password",
  "account.where": "Where you are signed in",
  "account.device": "Device",
  "account.lastUsed": "Last used",
  "account.end": "End",
  "account.endOthers": "Sign all others out",
  "account.endWhy":
    "Your present password ends them, so that nobody else who is at this device does.",
  "account.givenUntil":
    "Somebody else knows the password that you signed in with. It signs you in until {moment}: " +
    "choose one of your own here.",
  "account.thisOne": "This one",
  "account.endIt": "Sign that one out",
  "account.mustEnrol": "Your firm asks for a second step. Set it up, then sign in anew.",
  "account.twoStepOn": "The second step is set up.",
  "account.recoveryNote":
    "Keep these codes where the device is not: each signs you in once. They are shown this " +
    "once.",
  "account.signInAnew": "Sign out, then in again",
  "account.endTwoStep": "Take it off",
  "account.scan": "Read this picture with an authenticator on your telephone.",
  "account.typeSecret": "Or type:",
  "account.firstCode": "The code it shows now",
  "account.confirm": "Confirm",
  "account.twoStepWhy":
    "With a second step a stolen password opens nothing: signing in also takes a code that " +
    "your telephone shows.",
  "account.beginTwoStep": "Set it up",
  "invitation.subject": "{firm} invites you to Holdpoint",
  "invitation.text":
    "{firm} plans and records its work with Holdpoint, and has made an account for you. " +
    "Open it with this link and set a password of your own.",
  "invitation.once": "The link works once, within {days} days.",
  "invitation.accept": "Open the account",
  "invitation.title": "Welcome",
  "invitation.hello": "{name}, you will sign in with {email}.",
} as const;

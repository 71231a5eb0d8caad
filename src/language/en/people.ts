export const people = {
  "people.title": "People",
  "people.name": "Name",
  "people.namePart": "Part of the name",
  "people.role": "Role",
  "people.roles": "Roles",
  "people.standing": "Standing",
  "people.invited": "invited",
  "people.ranOut": "the invitation has run out",
  "people.inviteAgain": "Send a new invitation",
  "people.hasAccount": "signs in",
  "people.hasTwoStep": "second step",
  "people.gone": "No longer sign in:",
  "people.invite": "Invite a person",
  "people.inviteNote":
    "A mail with a link that opens the account once; the person sets a password of their " + "own.",
  "people.auditUntil": "Last day that the auditor sees the firm",
  "people.auditUntilHint": "The whole firm from today; what may be seen can be narrowed next.",
  "people.sendInvitation": "Send the invitation",
  "people.twoStepRoles": "Second step of signing in",
  "people.twoStepNote":
    "People with these roles set it up after their next sign-in and can do nothing before.",
  "people.all": "All people",
  "people.signsIn": "Signs in; without the tick every session ends",
  "people.editNote": "Changing roles signs the person out everywhere.",
  "people.lostDevice":
    "Lost the device and the recovery codes? Make sure by voice that it is really this " +
    "person.",
  "people.resetTwoStep": "Take the second step off",
} as const;

export const access = {
  "access.title": "Audit access of {name}",
  "access.now": "Access now",
  "access.over": "over",
  "access.stands": "given",
  "access.days": "From {from} to {until}.",
  "access.noEnd": "From {from}, without a last day.",
  "access.wholeFirm": "The whole firm",
  "access.givenBy": "Given by {name}.",
  "access.withdrawnBy": "Withdrawn by {name}.",
  "access.withdraw": "Withdraw it now",
  "access.none": "No access was given: this auditor sees nothing.",
  "access.noneWayOut": "Give an access below, with its days and what may be seen.",
  "access.give": "Give access",
  "access.note":
    "It takes the place of the one before, which stays on record. Whoever becomes an auditor " +
    "alone sees the whole firm for {days} days unless something else is given; auditors from " +
    "before that rule had {days} days from the update of the service.",
  "access.outside": "Comes from outside the firm: a last day is needed",
  "access.from": "First day",
  "access.until": "Last day",
  "access.scope": "What may be seen",
  "access.scopeNote": "Each part narrows the others. With none of them it is the whole firm.",
  "access.periodFrom": "Jobs closed or visited from",
  "access.periodTo": "Jobs closed or visited to",
  "access.sites": "Sites",
  "access.sitesHint": "References, such as S-2026-0001 S-2026-0002",
  "access.models": "Product models",
  "access.doGive": "Give this access",
  "access.earlier": "Earlier",
  "access.ofPeriod": "jobs closed or visited from {from} to {to}",
  "access.ofModels": "product models {models}",
  "access.ofSites": "sites {sites}",
  "access.notAuditor": "This person is not an auditor alone.",
  "access.notAuditorWayOut":
    "An access limits who is an auditor and nothing else; an owner can change the roles.",
  "access.line": "Audit access until {day}: {scope}.",
  "access.lineEnding":
    "Audit access until {day}, {days, plural, =0 {its last day} one {# day after today} other " +
    "{# days after today}}: {scope}.",
  "access.lineNoEnd": "Audit access without a last day: {scope}.",
  "access.lineWholeFirm": "the whole firm",
  "access.lineModels":
    "{count, plural, one {product model {models}} other {product models {models}}}",
  "access.lineModelCount": "{count} product models",
  "access.lineSites": "{count, plural, one {# site} other {# sites}}",
  "access.link": "Audit access",
} as const;

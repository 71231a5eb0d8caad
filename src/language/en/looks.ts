export const looks = {
  "looks.title": "Looks by auditors",
  "looks.note":
    "What auditors read or took away, once a day for each person and address. Looks at a job, " +
    "its photos and papers are on the ledger of the job.",
  "looks.person": "Person",
  "looks.day": "Day (UTC)",
  "looks.what": "What",
  "looks.when": "First look of the day",
  "looks.none": "No auditor has looked at anything yet.",
  "looks.noneWayOut": "Invite an auditor among the people, and say what they may see.",
} as const;

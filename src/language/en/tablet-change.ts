/** What the office changed in a job while it was open on a tablet. */
export const tabletChange = {
  "tabletChange.job":
    "The job is now {state, select, closed {closed} cancelled {cancelled} other {open}}.",
  "tabletChange.plan": "The plan is now {code}, version {number}.",
  "tabletChange.site": "The site's details were changed.",
  "tabletChange.visits": "The visits were changed.",
  "tabletChange.instruments": "The instruments were changed.",
  "tabletChange.message": "{name} writes: {words}",
  "tabletChange.unitCame": "Unit {serial} was put on the job.",
  "tabletChange.unitWent": "Unit {serial} was taken off the job.",
  "tabletChange.units": "Details of the units were changed.",
  "tabletChange.conceded": '"{title}" was released by concession.',
  "tabletChange.concession": "A concession was changed.",
} as const;

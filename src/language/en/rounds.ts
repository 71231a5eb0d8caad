export const rounds = {
  "rounds.link": "Update rounds",
  "rounds.title": "Update rounds",
  "rounds.note":
    "Due sites without a booked update visit, put into day rounds for your crews. A " +
    "proposal books nothing until it is accepted.",
  "rounds.proposal": "Proposal",
  "rounds.made": "Made",
  "rounds.what": "What",
  "rounds.none": "No rounds have been planned.",
  "rounds.noneWayOut": "Plan some below: choose days, hours and crews.",
  "rounds.new": "Plan rounds",
  "rounds.replaces":
    "Visits of the earlier rounds that have not begun are cancelled when these are " + "accepted.",
  "rounds.plan": "Plan of the visits",
  "rounds.fromDay": "From",
  "rounds.days": "Working days",
  "rounds.startsAt": "Leave no earlier than",
  "rounds.endsAt": "Home again by",
  "rounds.hoursHint": "Within the crews' working hours. Leave empty for all of them.",
  "rounds.notSent": "Crews not sent",
  "visitHours.title": "Visiting hours",
  "visitHours.note":
    "When the customer can let a crew in, by the clocks at the site. Leave everything empty " +
    "where any time will do. Update rounds keep to these hours; visits booked already stay.",
  "visitHours.day": "Day",
  "visitHours.window": "Hours {number}",
  "visitHours.fromOn": "{day}, hours {number}, from",
  "visitHours.toOn": "{day}, hours {number}, to",
  "visitHours.saved": "Visiting hours are kept.",
  "visitHours.link": "Visiting hours",
  "rounds.siteMin": "Minutes at a site",
  "rounds.unitMin": "Minutes for each unit",
  "rounds.sitesMost": "Sites at most",
  "rounds.doPlan": "Plan the rounds",
  "rounds.noPlan": "Update visits need a published plan.",
  "rounds.all": "All rounds",
  "rounds.notBooked": "Nothing was booked.",
  "rounds.noBase":
    "Your firm has named no place from which crews start, so the middle of these sites " +
    "stands in for it.",
  "rounds.accept": "Accept and book all",
  "rounds.drop": "Put aside",
  "rounds.replan": "Plan anew what has not begun",
  "rounds.drawn": "Drawn to scale",
  "rounds.outAndHome":
    "Out at {leaves}, home at {returns}, {minutes} minutes of driving (estimated from " +
    "distances).",
  "rounds.stop": "Stop",
  "rounds.drive": "Drive, min",
  "rounds.empty": "Nothing fits into these rounds.",
  "rounds.emptyWayOut":
    "Nothing is due without a visit, or the crews have no free hours: see below, or choose " +
    "other days.",
  "rounds.leftOut": "Left out",
  "rounds.state.proposed": "proposed",
  "rounds.state.accepted": "accepted",
  "rounds.state.dropped": "put aside",
} as const;
